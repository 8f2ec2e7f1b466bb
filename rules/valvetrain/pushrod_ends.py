"""Whether the ends of the pushrod sit in their cups, and whether oil gets through it."""

from buildlint.rulebook import *

CUPS = """
lifters: {cup_radius: 5/32 in}
rockers: {cup_radius: %s}
pushrods: {tip_radius: 5/32 in, cup_end_radius: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The pushrod's {end} end has a radius of {value}, but the {mate} it works in has {limit}.",
    fix="Order the rods with ends of the mate's radius, and say both ends on the order.",
    source="common practice, no source",
    conforming=(CUPS % ("5/32 in", "0.156 in", ""), """
        lifters: {cup_radius: 5/32 in}
        pushrods: {tip_radius: 0.1563 in}
        """),
    nonconforming=(CUPS % ("0.210 in", "5/32 in", "# <-"), """
        lifters: {cup_radius: 0.210 in}
        pushrods: {tip_radius: 5/32 in}  # <-
        """),
)
def pushrod_ends_match_their_cups(
    pushrod_tip_radius: Length = None, lifter_cup_radius: Length = None, pushrod_cup_end_radius: Length = None,
    rocker_cup_radius: Length = None, *, tolerance: Length = q("0.003 in"),
):
    """A ball in a cup of another radius bears on a ring or a point, and eats its way in.

    Asked where a radius is written; rods ordered as a set with their lifters and rockers need none.
    """
    asked = False
    for end, mate, radius, cup, word, mate_word in (
            ("lifter", "lifter's cup", pushrod_tip_radius, lifter_cup_radius, "pushrod_tip_radius", "lifter_cup_radius"),
            ("rocker", "rocker's cup or ball", pushrod_cup_end_radius, rocker_cup_radius, "pushrod_cup_end_radius",
             "rocker_cup_radius")):
        if radius is None or cup is None:
            continue
        asked = True
        verdict = matches(radius, cup, tolerance=tolerance)
        if verdict.kind == "fail":
            return verdict.telling(end=end, mate=mate).at(word, mate_word)
    return passes() if asked else not_applicable("no two radii are written that must meet")


OIL = """
pushrods: {oil_through: %s}
rockers: {fed_by: %s}  %s
lifters: {oiling: pushrod_feed}
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The rocker gets its oil through the pushrod, but {trouble}.",
    fix="Order hollow pushrods with oil holes and lifters that feed them, or rockers that are fed by their shaft.",
    source="common practice, no source",
    points_at=("rocker_fed_by", "pushrod_oil_through"),
    conforming=(OIL % ("yes", "pushrod", ""), OIL % ("no", "shaft", "")),
    nonconforming=(OIL % ("no", "pushrod", "# <-"), """
        pushrods: {oil_through: yes}
        rockers: {fed_by: pushrod}
        lifters: {oiling: none}  # <-
        """),
)
def pushrod_feeds_the_rocker(
    pushrod_oil_through: YesNo = None, rocker_fed_by: Choice = None, lifter_oiling: Choice = None,
):
    """A dry rocker seizes on its pivot within minutes.

    A hollow rod where none is needed does no harm, so only the two statements that contradict each other count.
    """
    if rocker_fed_by in ("shaft", "splash"):
        return passes()
    if rocker_fed_by is None:
        if pushrod_oil_through:
            return passes()
        return lacking("rocker_fed_by") if pushrod_oil_through is False else lacking("rocker_fed_by", "pushrod_oil_through")
    if pushrod_oil_through is None:
        return lacking("pushrod_oil_through")
    if not pushrod_oil_through:
        return require(False).telling(trouble="the pushrod is solid")
    return require(lifter_oiling != "none").telling(trouble="the lifter does not feed it").at("lifter_oiling")
