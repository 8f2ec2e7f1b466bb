"""Rings of wire round the bores: how far they stand out, how they are held, what lies opposite."""

from buildlint.rulebook import *

WIRE = """
head_gasket:
  kind: copper
  compressed_thickness: 0.043 in
  ring: {wire_diameter: 0.041 in, groove_depth: %s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="warning",
    due="machining",
    says="The wire stands {value} out of its groove, {share} of the gasket's thickness; {limit} is {bound}.",
    fix="Cut the groove {depth_to_have} deep.",
    source="engine builders' practice, two accounts: 10 and 25 percent of the gasket; limits common practice, no source",
    when={"joint_name": ("head",), "gasket_wire_proud": given},
    points_at=("head_gasket_ring_groove_depth", "head_gasket_ring_wire_diameter"),
    conforming=(WIRE % ("0.031 in", ""), WIRE % ("0.036 in", "")),
    nonconforming=(WIRE % ("0.028 in", "# <-"), WIRE % ("0.040 in", "# <-")),
)
def gasket_wire_stands_proud_right(
    joint_name: Choice, gasket_wire_proud: Length, joint_leads: YesNo = True, head_gasket_compressed_thickness: Length = None,
    head_gasket_ring_wire_diameter: Length = None, head_gasket_ring_groove_depth: Length = None, *,
    most_share: Fraction = q("0.25", "fraction"), least_share: Fraction = q("0.08", "fraction"),
    usual_share: Fraction = q("0.20", "fraction"),
):
    """Too little wire does not bite; too much holds the head off its gasket and cuts the copper through.

    Practice runs from a tenth of the gasket's thickness to a quarter.
    """
    if not joint_leads or not head_gasket_compressed_thickness or head_gasket_compressed_thickness < 0:
        return not_applicable("asked at the head joint, with the gasket's thickness known")
    gasket = head_gasket_compressed_thickness
    verdict = within(Length(gasket_wire_proud), Length(least_share * gasket), Length(most_share * gasket))
    bound = "the least that bites" if verdict.facts.get("side") == "below" else "the most"
    depth = head_gasket_ring_wire_diameter - usual_share * gasket if head_gasket_ring_wire_diameter is not None else head_gasket_ring_groove_depth
    return verdict.telling(share=f"{gasket_wire_proud / gasket:.0%}", bound=bound, depth_to_have=Length(depth))


GRIP = """
head_gasket:
  kind: copper
  ring: {wire_diameter: 0.041 in, groove_width: %s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="warning",
    due="machining",
    says="The groove is {head_gasket_ring_groove_width} wide for wire of {head_gasket_ring_wire_diameter}: the wire {trouble}.",
    fix="Cut the groove {from_width:up} to {to_width:down} wide, so that the wire is pressed in.",
    source="engine builders' practice: 0.001 to 0.002 in of press; common practice, no source",
    when={"joint_name": ("head",), "head_gasket_ring_wire_diameter": given, "head_gasket_ring_groove_width": given},
    points_at=("head_gasket_ring_groove_width",),
    conforming=(GRIP % ("0.039 in", ""), GRIP % ("0.040 in", "")),
    nonconforming=(GRIP % ("0.042 in", "# <-"), GRIP % ("0.037 in", "# <-")),
)
def wire_groove_grips_the_wire(
    joint_name: Choice, head_gasket_ring_wire_diameter: Length, head_gasket_ring_groove_width: Length, joint_leads: YesNo = True, *,
    least: Length = q("0.025 mm"), most: Length = q("0.052 mm"),
):
    """A loose wire falls out while the head is lowered; one that is forced in stands up in the middle."""
    if not joint_leads:
        return not_applicable("asked at the head joint")
    press = head_gasket_ring_wire_diameter - head_gasket_ring_groove_width
    verdict = within(Length(press), least, most)
    trouble = "is not held" if verdict.facts.get("side") == "below" else "is forced in"
    return verdict.telling(trouble=trouble, from_width=Length(head_gasket_ring_wire_diameter - most),
                           to_width=Length(head_gasket_ring_wire_diameter - least))


RECEIVER = """
head_gasket:
  kind: copper
  ring: {wire_diameter: 0.041 in, groove_depth: 0.031 in, receiver_width: %s, receiver_depth: %s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="note",
    due="machining",
    says="The receiver groove is {value} of the {what}; {limit} is {bound}.",
    fix="Cut it about {width_to_have} wide and {depth_to_have} deep.",
    source="common practice, no source, from memory",
    when={"joint_name": ("head",), "receiver_area": given, "gasket_wire_section": given},
    points_at=("head_gasket_ring_receiver_width", "head_gasket_ring_receiver_depth"),
    conforming=RECEIVER % ("0.050 in", "0.008 in", ""),
    nonconforming=(RECEIVER % ("0.060 in", "0.008 in", "# <-"), RECEIVER % ("0.050 in", "0.004 in", "# <-")),
)
def receiver_groove_fits_the_wire(
    joint_name: Choice, receiver_area: Area, gasket_wire_section: Area, head_gasket_ring_receiver_width: Length,
    head_gasket_ring_wire_diameter: Length, joint_leads: YesNo = True, head_gasket_ring_receiver_depth: Length = None, *,
    least_width: Ratio = q("1.15", "ratio"), most_width: Ratio = q("1.35", "ratio"), least_area: Ratio = q("1.0", "ratio"),
    most_area: Ratio = q("2.0", "ratio"), usual_width: Ratio = q("1.22", "ratio"), usual_area: Ratio = q("1.6", "ratio"),
):
    """Opposite the wire the copper is pressed into a shallow groove; without room it only thins, with too much it does not seal.

    The figures are those of a few builders and are the least sure of all here.
    """
    if not joint_leads or head_gasket_ring_wire_diameter <= 0 or gasket_wire_section <= 0:
        return not_applicable("asked at the head joint, where the wire stands proud")
    verdict = within(Ratio(head_gasket_ring_receiver_width / head_gasket_ring_wire_diameter), least_width, most_width)
    what = "wire's width"
    if verdict.kind == "pass":
        verdict, what = within(Ratio(receiver_area / gasket_wire_section), least_area, most_area), "wire's standing section"
    width = usual_width * head_gasket_ring_wire_diameter
    return verdict.telling(what=what, bound="the least" if verdict.facts.get("side") == "below" else "the most",
                           width_to_have=Length(width),
                           depth_to_have=Length(usual_area * gasket_wire_section / width))


SUITS = """
head_gasket: {kind: %s, bore: 4.165 in, ring: {wire_diameter: 0.041 in, groove_depth: 0.031 in, diameter: %s}}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Put the ring at {diameter_to_have:up} or more, inside the sealing land.",
    source="common practice, no source",
    when={"joint_name": ("head",), "head_gasket_ring_wire_diameter": given},
    points_at=("head_gasket_ring_wire_diameter", "head_gasket_kind"),
    conforming=SUITS % ("copper", "4.40 in", ""),
    nonconforming=(SUITS % ("multilayer_steel", "4.40 in", "# <-"), SUITS % ("copper", "4.20 in", "# <-")),
)
def wire_ring_suits_the_gasket(
    joint_name: Choice, head_gasket_ring_wire_diameter: Length, joint_leads: YesNo = True, head_gasket_kind: Choice = None,
    gasket_wire_proud: Length = None, head_gasket_ring_diameter: Length = None, head_gasket_bore: Length = None, *,
    outside_by: Length = q("1.5 mm"),
):
    """A proud wire cuts the beads of a multilayer gasket; it belongs under copper, a little outside the opening.

    Some makers sell multilayer gaskets for rings: have it permitted with their sheet as the reason.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    to_have = Length(head_gasket_bore + 2 * outside_by) if head_gasket_bore is not None else outside_by
    if head_gasket_kind == "multilayer_steel" and (gasket_wire_proud is None or gasket_wire_proud > 0):
        return require(False).telling(trouble="A wire ring stands proud under a multilayer gasket and cuts its beads.").saying(
            fix="Take solid copper or the gasket that was made for wire rings.")
    if head_gasket_ring_diameter is None or head_gasket_bore is None:
        return passes() if head_gasket_kind is not None else not_applicable("the gasket is not written")
    verdict = at_least(Length((head_gasket_ring_diameter - head_gasket_bore) / 2), warning=outside_by)
    return verdict.at("head_gasket_ring_diameter").telling(diameter_to_have=to_have).saying(
        "The ring lies {value} outside the gasket's opening; keep {limit}.")
