"""The opening of the head gasket against bore, chamfer, chamber, crown and the next bore."""

from buildlint.rulebook import *

OPENING = """
block: {bore: %s}
head_gasket: {bore: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Take a gasket with an opening of {opening_to_have:up} or the next size up.",
    source="trade press quoting gasket makers: opening larger than the bore by 0.030 to 0.060 in; lines common practice, no source",
    when={"head_gasket_bore": given},
    points_at=("head_gasket_bore", "block_bore"),
    conforming=(OPENING % ("4.125 in", "4.165 in", ""), OPENING % ("4.030 in", "4.100 in", "")),
    nonconforming=(OPENING % ("4.155 in", "4.100 in", "# <-"), OPENING % ("4.155 in", "4.160 in", "# <-"),
                   OPENING % ("4.155 in", "4.170 in", "# <-")),
)
def gasket_clears_the_bore(
    head_gasket_bore: Length, block_bore: Length = None, *,
    warning_below: Length = q("0.010 in"), note_below: Length = q("0.020 in"), usual: Length = q("0.030 in"),
):
    """A gasket edge that hangs into the bore glows and sets off the mixture, until the engine has melted its own gasket.

    Boring after the gasket was bought is how it happens. Some gaskets are made to fit closely; below half a millimeter
    is only noted.
    """
    if block_bore is None:
        return not_applicable("the bore is not written")
    wider = head_gasket_bore - block_bore
    verdict = at_least(Length(wider), error=Length(0.0), warning=warning_below, note=note_below)
    verdict.telling(opening_to_have=Length(block_bore + usual), overhang=Length(max(0.0, -wider / 2)))
    if verdict.level == "error":
        return verdict.saying("The gasket's opening of {head_gasket_bore} hangs {overhang} into the bore of {block_bore} all round.")
    return verdict.saying("The gasket's opening is only {value} wider than the bore; {limit} or more is usual.")


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The gasket's opening is {value} wider than the bore; above {limit} it only makes a crevice.",
    fix="A gasket of the next size down, {opening_to_have:up} or so, gains a little compression and burns cleaner.",
    source="common practice, no source",
    when={"head_gasket_bore": given},
    points_at=("head_gasket_bore", "block_bore"),
    conforming=OPENING % ("4.030 in", "4.100 in", ""),
    nonconforming=OPENING % ("4.030 in", "4.166 in", "# <-"),
)
def gasket_opening_is_close(head_gasket_bore: Length, block_bore: Length = None, *, most: Length = q("0.100 in"),
                            usual: Length = q("0.060 in")):
    """A large ring costs ratio and hides mixture from the flame, but harms nothing."""
    if block_bore is None:
        return not_applicable("the bore is not written")
    return at_most(Length(head_gasket_bore - block_bore), most).telling(opening_to_have=Length(block_bore + usual))


CHAMFER = """
block: {bore: 4.125 in, bore_chamfer: %s}
head_gasket: {bore: %s, locating_slack: 0.010 in}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The bead of the gasket lies {overlap} over the chamfer at the top of the bore, if it sits to one side.",
    fix="Take an opening of {opening_to_have:up}, a smaller chamfer, or dowels that locate the gasket better.",
    source="geometry; common practice, no source",
    when={"head_gasket_bore": given, "block_bore_chamfer": given},
    points_at=("head_gasket_bore", "block_bore_chamfer"),
    conforming=(CHAMFER % ("0.020 in", "4.200 in", ""), CHAMFER % ("0.010 in", "4.165 in", "")),
    nonconforming=(CHAMFER % ("0.020 in", "4.165 in", "# <-"),
                   (CHAMFER % ("0.020 in", "4.165 in", "# <-")).replace(", locating_slack: 0.010 in", "")),
)
def gasket_bead_clears_bore_chamfer(
    head_gasket_bore: Length, block_bore_chamfer: Length, block_bore: Length = None, head_gasket_locating_slack: Length = None, *,
    usual_slack: Length = q("0.010 in"), assumed_within: Length = q("0.002 in"),
):
    """A sealing bead that stands over the chamfer has nothing to press on there.

    How far the gasket can sit to one side is assumed where it is not written, and the finding is then a note; less than the
    assumption is good for is not told.
    """
    if block_bore is None or head_gasket_bore < block_bore:
        return not_applicable("the bore is not written, or the opening lies inside it")
    slack = usual_slack if head_gasket_locating_slack is None else head_gasket_locating_slack
    margin = (head_gasket_bore - block_bore) / 2 - block_bore_chamfer - slack
    verdict = at_least(Length(margin), Length(0.0))
    if head_gasket_locating_slack is None:
        if -assumed_within <= margin < 0:
            return passes()
        verdict.within_level("note")
    return verdict.telling(overlap=Length(max(0.0, -margin)), opening_to_have=Length(block_bore + 2 * (block_bore_chamfer + slack)))


CHAMBER = """
heads: {chamber_width: %s}
head_gasket: {bore: 4.100 in}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The chamber is {head_chamber_width} wide at the face, the gasket's opening {head_gasket_bore}: the chamber's edge lies on the "
         "fire ring.",
    fix="Take a gasket with an opening of {head_chamber_width} or more if bore and lands allow it, or blend the chamber inside the opening.",
    source="common practice, no source",
    when={"head_gasket_bore": given, "head_chamber_width": given},
    points_at=("head_gasket_bore", "head_chamber_width"),
    conforming=(CHAMBER % ("4.05 in", ""), CHAMBER % ("4.100 in", "")),
    nonconforming=CHAMBER % ("4.14 in", "# <-"),
)
def chamber_lies_inside_gasket(head_gasket_bore: Length, head_chamber_width: Length, block_bore: Length = None):
    """Where the chamber reaches past the opening, the fire ring is clamped by an edge, or hangs free and burns."""
    if block_bore is not None and head_gasket_bore < block_bore:
        return not_applicable("the opening lies inside the bore, which is asked about")
    return at_least(Length(head_gasket_bore - head_chamber_width), Length(0.0))


PROUD = """
pistons: {below_deck: %s, top_land_diameter: 4.105 in}
head_gasket: {bore: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The piston stands proud of the deck and passes {value} inside the gasket's opening, all round together; keep {limit}.",
    fix="Take an opening of {opening_to_have:up} or more, or bring the piston to the deck.",
    source="common practice, no source",
    when={"head_gasket_bore": given, "piston_below_deck": given},
    points_at=("head_gasket_bore", "piston_below_deck"),
    conforming=(PROUD % ("-0.005 in", "4.165 in", ""), PROUD % ("0.005 in", "4.120 in", "")),
    nonconforming=PROUD % ("-0.005 in", "4.130 in", "# <-"),
)
def proud_piston_clears_the_gasket(
    head_gasket_bore: Length, piston_below_deck: Length, piston_top_land_diameter: Length = None, block_bore: Length = None, *,
    least: Length = q("1.0 mm"),
):
    """A crown that rises into the gasket rocks there, and hammers the fire ring wherever it is narrower than its play."""
    if piston_below_deck >= 0:
        return not_applicable("the piston stays below the deck")
    crown = piston_top_land_diameter or block_bore
    if crown is None:
        return not_applicable("the crown's diameter is not written")
    return at_least(Length(head_gasket_bore - crown), least).telling(opening_to_have=Length(crown + least))


LAND = """
block: {bore_spacing: 4.400 in}
head_gasket: {kind: %s, bore: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="Between two openings {value} of gasket is left; a {head_gasket_kind} gasket wants {limit}.",
    fix="Take an opening of {opening_to_stay_under:down} or less, or a kind of gasket that lives with a narrow land.",
    source="geometry; widths common practice, no source, from memory",
    when={"head_gasket_bore": given, "block_bore_spacing": given},
    points_at=("head_gasket_bore",),
    conforming=(LAND % ("multilayer_steel", "4.200 in", ""), LAND % ("composite", "4.100 in", "")),
    nonconforming=(LAND % ("multilayer_steel", "4.230 in", "# <-"), LAND % ("composite", "4.200 in", "# <-")),
)
def gasket_land_between_bores_is_wide(
    gasket_land_between_bores: Length, head_gasket_kind: Choice = None, head_gasket_bore: Length = None,
    block_bore_spacing: Length = None, block_bore: Length = None, *,
    steel: Length = q("5.0 mm"), soft: Length = q("6.5 mm"),
):
    """The strip between two bores is hot on both sides and cooled by neither; too narrow, fire runs from one bore to the next."""
    if head_gasket_kind is None:
        return not_applicable("the kind of gasket is not written")
    least = soft if head_gasket_kind in ("composite", "graphite") else steel
    verdict = at_least(Length(gasket_land_between_bores), least)
    widest = head_gasket_bore + gasket_land_between_bores - least
    if block_bore is not None and widest < block_bore:
        verdict.saying(fix="No opening that clears this bore leaves such a land: take a smaller bore, or a kind of gasket that lives with a narrow land.")
    return verdict.telling(opening_to_stay_under=Length(widest))
