"""Whether the lifters fit their bores and can be put into them, and whether oil reaches them through the whole lift."""

from buildlint.rulebook import *

BORE = """
block: {material: %s}
lifters: {body_diameter: %s, bore: %s%s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="A {lifter_body_diameter} lifter stands against a {lifter_bore} bore.",
    fix="Order lifters for the bore, or have the bores bushed to {lifter_body_diameter} and say so: bore_bushed: yes.",
    source="geometry",
    when={"lifter_body_diameter": given, "lifter_bore": given},
    points_at=("lifter_body_diameter",),
    conforming=(BORE % ("cast_iron", "0.8420 in", "0.8435 in", "", ""), BORE % ("cast_iron", "0.8420 in", "0.8750 in", ", bore_bushed: yes", "")),
    nonconforming=(BORE % ("cast_iron", "0.8420 in", "0.8750 in", "", "# <-"), BORE % ("cast_iron", "0.9040 in", "0.8435 in", ", bore_bushed: yes", "# <-")),
)
def lifter_diameter_matches_bore(
    lifter_body_diameter: Length, lifter_bore: Length, lifter_bore_bushed: YesNo = None, *, same_size_within: Length = q("0.010 in"),
):
    """Lifters come as 0.842, 0.875, 0.904 and 0.937 in, and blocks with bores for one of them.

    Asked is only whether they are of one nominal size; the clearance has a rule of its own. A bushed bore may be
    written as the block came.
    """
    loose = lifter_bore - lifter_body_diameter
    if lifter_bore_bushed and loose > 0:
        return passes()
    verdict = at_most(Length(abs(loose)), same_size_within)
    verdict.comparing(lifter_body_diameter, lifter_bore)
    return verdict


MUSHROOM = """
lifters: {kind: solid_flat, foot: %s, foot_diameter: %s, bore: 0.9045 in}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The foot of {lifter_foot_diameter} does not pass through the {lifter_bore} bore from above.",
    fix="If it is a mushroom foot, write lifters.foot: mushroom and put the lifters in from below, before the cam; else order lifters whose foot "
        "passes the bore.",
    source="geometry",
    when={"lifter_foot_diameter": given, "lifter_bore": given},
    points_at=("lifter_foot_diameter", "lifter_foot"),
    conforming=(MUSHROOM % ("mushroom", "0.960 in", ""), MUSHROOM % ("crowned", "0.9035 in", "")),
    nonconforming=(MUSHROOM % ("crowned", "0.960 in", "# <-"), MUSHROOM % ("mushroom", "0.900 in", "# <-")),
)
def lifter_foot_passes_its_bore(
    lifter_foot_diameter: Length, lifter_bore: Length, lifter_foot: Choice = None, lifter_kind: Choice = None,
):
    """A flat lifter drops in from the valley; one with a mushroom foot can only come from the cam's side, with the cam out.

    A foot said to be a mushroom that is no wider than its bore is noted: it buys nothing, or the size is another's. The
    wheel of a roller lies inside its body and is not asked.
    """
    if "roller" in (lifter_kind or "") or lifter_foot == "roller":
        return not_applicable("the wheel of a roller lies inside its body")
    if lifter_foot == "mushroom":
        return require(lifter_foot_diameter > lifter_bore, "note").saying(
            "The lifters are said to have a mushroom foot, and at {lifter_foot_diameter} it is no wider than the {lifter_bore} bore.",
            "Measure the foot, or write lifters.foot: crowned.")
    return at_most(lifter_foot_diameter, lifter_bore)


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="The lifters have a mushroom foot: they go in from below, each oiled and held up, before the cam, and the cam does not come out again "
         "unless they are held up.",
    fix="Stand the block on its deck, look that no foot meets its neighbor, the block or a cam bearing, slide the cam in under them, and sign.",
    source="common practice, no source",
    when={"lifter_foot": given},
    caution="Bolt the block to a stand rated for it before it is turned over.",
    conforming="lifters: {kind: solid_flat, foot: mushroom}",
)
def mushroom_lifters_go_in_first(lifter_foot: Choice):
    """Forgotten, it is found when the cam is in, the crank on top of it, and sixteen lifters lie on the bench."""
    return review() if lifter_foot == "mushroom" else not_applicable("the lifters go in from above")


@rule(
    scope="side",
    level="error",
    due="machining",
    says="A lifter has {value} of clearance in its bore; keep {limit}.",
    fix="Hone the bore until the lifter's clearance is {target}.",
    source="common practice, no source; 0.0015 in is the trade's rule of thumb for iron",
    points_at=("lifter_bore_clearance",),
    conforming=(BORE % ("cast_iron", "0.9030 in", "0.9045 in", "", ""), BORE % ("cast_iron", "0.8420 in", "0.8442 in", "", ""),
                BORE % ("aluminum_cast", "0.8420 in", "0.8433 in", "", "")),
    nonconforming=(BORE % ("cast_iron", "0.8420 in", "0.8427 in", "", "# <-"), BORE % ("cast_iron", "0.8420 in", "0.84285 in", "", "# <-"),
                   BORE % ("cast_iron", "0.8420 in", "0.8445 in", "", "# <-"), BORE % ("cast_iron", "0.8420 in", "[0.8435 in, 0.8455 in]", "", "# <-"),
                   BORE % ("aluminum_cast", "0.8420 in", "0.8431 in", "", "# <-")),
)
def lifter_bore_clearance_is_set(
    lifter_bore_clearance: Length, block_material: Choice = None, *,
    error=(q("0.0008 in"), q("0.0030 in")), warning=(q("0.0010 in"), q("0.0022 in")), aluminum_more: Length = q("0.0003 in"),
    target: Length = q("0.0015 in"), another_size_beyond: Length = q("0.010 in"),
):
    """A tight lifter sticks open on a cold morning; a loose one leaks the gallery's pressure past its band.

    Aluminum wants 0.0003 in more. Each bore is judged; sets differ by more than new ones are thought to. A lifter of
    another size altogether is another rule's affair.
    """
    if abs(lifter_bore_clearance) > another_size_beyond:
        return not_applicable("body and bore are not of one size")
    more = aluminum_more if str(block_material).startswith("aluminum") else 0.0
    verdict = within(lifter_bore_clearance, error=_moved(error, more), warning=_moved(warning, more))
    if verdict.facts.get("side") == "above":
        verdict.saying(fix="Bush the bore and hone it until the lifter's clearance is {target}, or fit oversize lifters.")
    return verdict.telling(target=Length(target + more))


def _moved(pair, more):
    return Length(pair[0] + more), Length(pair[1] + more)


BAND = """
camshaft: {base_circle_diameter: 1.430 in%s}
lifters: {oil_band_bottom: %s, oil_band_top: 1.10 in, feed_height: %s, bore_bottom: %s, bore_top: %s}  %s
intake:
  lobe: {lift: 0.353 in}
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="With the lifter on its base circle the feed hole lies {short} outside its oil band: no oil gets in.",
    fix="Take a lifter whose band lies there, a larger base circle, or bushed bores with the feed hole moved.",
    source="geometry",
    points_at=("lifter_feed_height", "lifter_oil_band_bottom", "camshaft_base_circle_diameter"),
    conforming=(BAND % ("", "0.70 in", "1.60 in", "1.20 in", "2.30 in", ""), BAND % ("", "0.70 in", "1.415 in", "1.20 in", "2.30 in", "")),
    nonconforming=(BAND % ("", "0.70 in", "1.85 in", "1.20 in", "2.30 in", "# <-"), BAND % ("", "0.95 in", "1.60 in", "1.20 in", "2.30 in", "# <-")),
)
def lifter_band_stays_fed(
    lifter_fed_margin: Length = None, camshaft_base_circle_diameter: Length = None,
    camshaft_replaced_base_circle_diameter: Length = None, camshaft_replaced_lobe_lift: Length = None, lobe_lift: Length = None,
    lifter_feed_height: Length = None, lifter_oil_band_bottom: Length = None, *, ask_beyond: Length = q("0.060 in"),
):
    """A lifter is fed through a hole in its bore that must lie in its groove while the valve is shut.

    A smaller base circle lets the lifter sink, a taller one lifts the groove past the hole. Where the heights are not
    written but base circle or lift changed by more than 0.060 in, somebody has to look.
    """
    if lifter_fed_margin is not None:
        verdict = at_least(lifter_fed_margin, Length(0.0))
        return verdict.telling(short=Length(-lifter_fed_margin))
    smaller = higher = 0.0
    if camshaft_base_circle_diameter is not None and camshaft_replaced_base_circle_diameter is not None:
        smaller = camshaft_replaced_base_circle_diameter - camshaft_base_circle_diameter
    if lobe_lift is not None and camshaft_replaced_lobe_lift is not None:
        higher = lobe_lift - camshaft_replaced_lobe_lift
    if max(smaller, higher) > ask_beyond * (1 + 1e-9):
        return review().saying("Base circle or lift changed by {change}: look whether the feed hole lies in the lifter's oil band, shut and "
                               "open.", "Measure band, feed hole and bore from the cam's center and write them under lifters, or sign for it.") \
            .telling(change=Length(max(smaller, higher)))
    return not_applicable("the heights of band and feed hole are not written")


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The lifter's oil band leaves its bore by {short}: the gallery blows off there.",
    fix="Take a lifter with a shorter or differently placed band, less lift, a bore with a taller boss, or bushed bores.",
    source="geometry; one published case needed bores 0.300 in taller",
    when={"lifter_band_margin": given},
    points_at=("lifter_bore_top", "lifter_bore_bottom"),
    conforming=(BAND % ("", "0.70 in", "1.60 in", "1.20 in", "2.30 in", ""), BAND % ("", "0.70 in", "1.60 in", "1.410 in", "2.170 in", "")),
    nonconforming=(BAND % ("", "0.70 in", "1.60 in", "1.20 in", "2.10 in", "# <-"), BAND % ("", "0.70 in", "1.60 in", "1.44 in", "2.30 in", "# <-")),
)
def lifter_band_stays_in_bore(lifter_band_margin: Length):
    """At full lift the top of the oil band may stand above a short bore, and every lift then spills the gallery.

    The reverse happens below on a small base circle. Race lifters are tall and want tall bores.
    """
    return at_least(lifter_band_margin, Length(0.0)).telling(short=Length(-lifter_band_margin))
