"""What the rocker must not touch: retainer, stud, nut, cover."""

from buildlint.rulebook import *

GAPS = """
rockers: {retainer_gap_shut: %s, retainer_gap_open: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="{value} is left between rocker and retainer {where}; keep {limit}.",
    fix="Relieve the rocker, fit a smaller retainer, a lash cap or a longer valve; {short:up} more is wanted.",
    spared=("stock",),
    source="common practice, no source",
    points_at=("rocker_retainer_gap_shut", "rocker_retainer_gap_open"),
    conforming=(GAPS % ("0.050 in", "0.045 in", ""), GAPS % ("0.040 in", "0.060 in", "")),
    nonconforming=(GAPS % ("0.045 in", "0.018 in", "# <-"), GAPS % ("0.035 in", "0.050 in", "# <-")),
)
def rocker_clears_the_retainer(
    rocker_retainer_gap_shut: Length = None, rocker_retainer_gap_open: Length = None, *,
    warning_below: Length = q("0.040 in"), error_below: Length = q("0.020 in"),
):
    """A rocker that touches the retainer pushes it off its locks, or grinds it into the oil as silver dust.

    Large retainers, high lift and tall springs bring them together, at one end of the travel or the other.
    """
    known = [(gap, where, word) for gap, where, word in (
        (rocker_retainer_gap_shut, "with the valve shut", "rocker_retainer_gap_shut"),
        (rocker_retainer_gap_open, "at full lift", "rocker_retainer_gap_open")) if gap is not None]
    missing = [word for word, gap in (("rocker_retainer_gap_shut", rocker_retainer_gap_shut),
                                      ("rocker_retainer_gap_open", rocker_retainer_gap_open)) if gap is None]
    if known:
        gap, where, word = min(known, key=lambda row: row[0])
        verdict = at_least(gap, warning=warning_below, error=error_below).telling(
            where=where, short=Length(warning_below - gap)).at(word)
        if verdict.kind == "fail" or not missing:
            return verdict
    return lacking(*missing)


SLOT = """
rockers: {mount: stud, slot_gap: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="{rocker_slot_gap} is left between the rocker and its stud or nut at one end of the travel; keep {limit}.",
    fix="Fit rockers with a longer slot or a slimmer nut, or lengthen the slot by {short:up} at that end.",
    spared=("stock",),
    source="common practice, no source",
    points_at=("rocker_slot_gap",),
    conforming=(SLOT % ("0.050 in", ""), SLOT % ("0.030 in", ""), "rockers: {mount: shaft}"),
    nonconforming=(SLOT % ("0.022 in", "# <-"), SLOT % ("0.012 in", "# <-")),
)
def rocker_slot_clears_the_stud(
    rocker_mount: Choice = None, rocker_slot_gap: Length = None, *,
    warning_below: Length = q("0.030 in"), error_below: Length = q("0.015 in"),
):
    """A slot that runs out levers the stud out of the head or breaks it.

    A longer lift or a higher ratio uses up the slot; look at both ends of the travel and at the nut's window.
    """
    if rocker_slot_gap is None:
        if rocker_mount in ("stud", "ball_pedestal"):
            return lacking("rocker_slot_gap")
        return lacking("rocker_mount") if rocker_mount is None else not_applicable("no slot around a stud")
    return at_least(rocker_slot_gap, warning=warning_below, error=error_below).telling(
        short=Length(warning_below - rocker_slot_gap))


COVER = """
rockers: {class: aluminum_roller_stud_7_16, girdle: fitted}
heads: {rocker_cover_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="The tallest rocker, nut or girdle comes within {head_rocker_cover_gap} of its cover or baffle; keep {limit}.",
    fix="Fit a spacer, a taller cover or lower nuts, {short:up} more; with a spacer look at the cover bolts' length too.",
    source="common practice, no source; from memory",
    conforming=(COVER % ("0.150 in", ""), "rockers: {class: stamped_ball}"),
    nonconforming=(COVER % ("0.040 in", "# <-"), COVER % ("-0.020 in", "# <-")),
)
def rocker_cover_clears_rockers(
    head_rocker_cover_gap: Length = None, rocker_class: Choice = None, rocker_girdle: Choice = None, *,
    least: Length = q("0.060 in"),
):
    """A rocker that taps the cover sounds like a loose lash, and holes the cover or breaks the baffle off.

    Checked with the real gasket and baffles. Factory rockers under factory covers are not asked about.
    """
    if head_rocker_cover_gap is None:
        factory = rocker_class is None or rocker_class.startswith(("production", "stamped"))
        return lacking("head_rocker_cover_gap") if not factory or rocker_girdle == "fitted" else \
            not_applicable("factory rockers under factory covers")
    return at_least(head_rocker_cover_gap, warning=least).telling(short=Length(least - head_rocker_cover_gap))
