"""Whether the plungers of hydraulic lifters sit where they should, on every valve, cold, hot and worn."""

from buildlint.rulebook import *

HYDRAULIC = ("hydraulic_flat", "hydraulic_roller")

PRELOAD = """
lifters: {kind: hydraulic_roller, plunger: %s, plunger_travel: %s, preload: %s%s}  %s
rockers: {ratio: 1.7}
"""
TURNED = """
lifters: {kind: hydraulic_flat, plunger: standard_travel, plunger_travel: 0.150 in, preload_turns: %s}  %s
rockers: {ratio: 1.5, adjustment: stud_nut, adjuster_thread: 7/16-20}
"""


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The plunger is pushed in {value}; {whose} {low:up} to {high:down}.",
    fix="Change the preload by {by} toward {target}: {how}.",
    source="common practice, no source; the trade press gives 0.020 to 0.060 in",
    when={"lifter_kind": HYDRAULIC},
    points_at=("lifter_preload", "lifter_preload_turns"),
    conforming=(PRELOAD % ("standard_travel", "0.150 in", "0.040 in", "", ""), PRELOAD % ("net_lash_travel", "0.130 in", "0.085 in", "", ""),
                PRELOAD % ("limited_travel", "0.060 in", "0.004 in", "", ""), TURNED % ("0.5", ""),
                PRELOAD % ("standard_travel", "0.150 in", "0.110 in", ", deep_set: yes", "")),
    nonconforming=(PRELOAD % ("standard_travel", "0.150 in", "0.080 in", "", "# <-"), PRELOAD % ("standard_travel", "0.150 in", "0.003 in", "", "# <-"),
                   PRELOAD % ("standard_travel", "0.150 in", "0.135 in", "", "# <-"), TURNED % ("1", "# <-"),
                   PRELOAD % ("limited_travel", "0.060 in", "0.040 in", "", "# <-"),
                   PRELOAD % ("standard_travel", "0.150 in", "[0.040 in, 0.072 in]", "", "# <-")),
)
def preload_suits_the_lifter(
    lifter_preload: Length, lifter_plunger: Choice = None, lifter_plunger_travel: Length = None, lifter_maker_preload_low: Length = None,
    lifter_maker_preload_high: Length = None, lifter_deep_set: YesNo = None, lifter_travel_per_turn: Length = None,
    rocker_adjustment: Choice = None, *,
    usual={"standard_travel": (q("0.020 in"), q("0.060 in")), "net_lash_travel": (q("0.025 in"), q("0.090 in")),
           "limited_travel": (q("0.002 in"), q("0.025 in"))},
    target={"standard_travel": q("0.040 in"), "net_lash_travel": q("0.050 in"), "limited_travel": q("0.010 in")},
    error_below: Length = q("0.005 in"), error_share_of_travel: Fraction = q("0.85", "fraction"),
    noted_share_of_travel: Fraction = q("0.50", "fraction"),
):
    """Too little preload rattles and pounds the clip; too much leaves the plunger no way to go when a seat wears.

    A nut on the stud moves the pivot, and the plunger goes farther than the thread: one turn of 7/16-20 at a ratio of
    1.5 is 0.083 in, not 0.050. Shops quote either; judged is the plunger. One full turn, as factory books ask for, puts the
    plunger of a standard lifter near the middle of its travel, and up to there it is a note. The maker's window wins. Deep set on purpose
    (a turn and more, on lifters made for it) is allowed where it says so.
    """
    plunger = lifter_plunger or "standard_travel"
    low, high = usual[plunger]
    goal = target[plunger]
    whose = "usual for {} is".format({"standard_travel": "a standard lifter", "net_lash_travel": "a lifter without adjuster",
                                      "limited_travel": "a lifter of limited travel"}[plunger])
    if lifter_maker_preload_low is not None and lifter_maker_preload_high is not None:
        low, high, whose = lifter_maker_preload_low, lifter_maker_preload_high, "its maker asks for"
        goal = Length((low + high) / 2)
    travel = lifter_plunger_travel
    deepest = None if travel is None else Length(travel * (1.0 if lifter_deep_set else error_share_of_travel))
    shallowest = Length(0.0) if plunger == "limited_travel" else error_below
    if low < shallowest:
        shallowest = low
    verdict = within(lifter_preload, error=(shallowest, deepest), warning=(low, None if lifter_deep_set else high))
    if verdict.level == "warning" and plunger == "standard_travel" and travel is not None and low < lifter_preload <= travel * noted_share_of_travel:
        verdict.within_level("note")
    by = abs(goal - lifter_preload)
    verdict.telling(whose=whose, low=low, high=high, target=goal, by=Length(by),
                    how=_how(goal > lifter_preload, rocker_adjustment in ("stud_nut", "pushrod_end")))
    if not lifter_travel_per_turn:
        return verdict
    return verdict.telling(turn=Length(lifter_travel_per_turn), turns=f"{by / lifter_travel_per_turn:.2f}",
                           way="in" if goal > lifter_preload else "out").saying(
        fix="Turn the adjuster {turns} of a turn {way}, toward {target} at the plunger; one turn moves it {turn}.")


def _how(deeper, adjuster):
    """What is done: the adjuster is turned where there is one, and else the pushrod is changed."""
    if adjuster:
        return "turn the adjuster {}".format("in" if deeper else "out")
    return "a pushrod {} by as much".format("longer" if deeper else "shorter")


@rule(
    scope="side",
    level="warning",
    due="assembly",
    says="The preload of one side differs by {value} from valve to valve; keep {limit}.",
    fix="Look for the odd valve: a sunk seat, a long tip, a short pushrod. Order pushrods by cylinder, or set each adjuster.",
    source="common practice, no source",
    when={"lifter_kind": HYDRAULIC},
    points_at=("lifter_preload",),
    conforming=PRELOAD % ("standard_travel", "0.150 in", "[0.032 in, 0.040 in, 0.052 in]", "", ""),
    nonconforming=PRELOAD % ("standard_travel", "0.150 in", "[0.030 in, 0.040 in, 0.055 in]", "", "# <-"),
)
def preload_is_even(lifter_preload_spread: Length = None, *, most: Length = q("0.020 in")):
    """Engines without adjusters show in the preload what the machine shop did to each valve.

    Two hundredths take up a third of the window.
    """
    if lifter_preload_spread is None:
        return not_applicable("the preload is not written valve by valve")
    return at_most(lifter_preload_spread, most)


WARM = """
block: {material: %s}
heads: {material: %s}
lifters: {kind: hydraulic_roller, plunger: %s, plunger_travel: %s, preload: %s}  %s
rockers: {ratio: 1.6}
"""


@rule(
    scope="side",
    level="warning",
    due="assembly",
    says="{trouble}",
    fix="{cure}",
    source="common practice, no source",
    when={"lifter_kind": HYDRAULIC},
    points_at=("lifter_preload", "lifter_preload_turns"),
    conforming=(WARM % ("aluminum_cast", "aluminum_356_t6", "standard_travel", "0.150 in", "0.050 in", ""),
                WARM % ("aluminum_cast", "aluminum_356_t6", "limited_travel", "0.060 in", "0.012 in", "")),
    nonconforming=(WARM % ("aluminum_cast", "aluminum_356_t6", "limited_travel", "0.060 in", "0.004 in", "# <-"),
                   WARM % ("cast_iron", "cast_iron", "standard_travel", "0.070 in", "0.055 in", "# <-")),
)
def preload_survives_warm_up(
    lifter_preload_hot: Length, lifter_preload: Length, rocker_ratio: Ratio, lifter_plunger: Choice = None,
    lifter_plunger_travel: Length = None, lifter_deep_set: YesNo = None, lifter_maker_preload_low: Length = None, *,
    least_hot={"standard_travel": q("0.010 in"), "net_lash_travel": q("0.010 in"), "limited_travel": q("0 in")},
    cold_rule_below={"standard_travel": q("0.020 in"), "net_lash_travel": q("0.025 in"), "limited_travel": q("0.002 in")},
    cold_rule_above={"standard_travel": q("0.060 in"), "net_lash_travel": q("0.090 in"), "limited_travel": q("0.025 in")},
    seat_wear: Length = q("0.020 in"), share_of_travel: Fraction = q("0.90", "fraction"),
):
    """An aluminum engine grows away from its pushrods and takes preload with it; a seat that wears gives it back, and more.

    Growth by the metals of block and head is the chart's, the least certain figure here. A lifter of limited travel
    may come to nothing but not go into lash. Preload that is too little or too much already cold is for the rule on
    preload.
    """
    plunger = lifter_plunger or "standard_travel"
    least, enough = least_hot[plunger], cold_rule_below[plunger]
    if lifter_maker_preload_low is not None:
        enough = min(enough, lifter_maker_preload_low)
    if lifter_preload < enough * (1 - 1e-9):
        return not_applicable("the preload is too small already when cold")
    verdict = at_least(lifter_preload_hot, least)
    if verdict.kind == "fail":
        return verdict.telling(lost=Length(lifter_preload - lifter_preload_hot), short=Length(least - lifter_preload_hot)).saying(
            "Of {lifter_preload} preload the engine takes {lost} when it gets hot: "
            + ("{value} is left." if lifter_preload_hot >= 0 else "the lifter goes into lash."),
            "Order pushrods longer by {short:up} or more, or turn the adjusters in by as much at the lifter.")
    if lifter_plunger_travel is None or lifter_deep_set or lifter_preload > cold_rule_above[plunger] * (1 + 1e-9):
        return verdict
    worn = Length(lifter_preload_hot + seat_wear / max(rocker_ratio, 1e-3))
    deepest = Length(share_of_travel * lifter_plunger_travel)
    return at_most(worn, deepest).telling(out=Length(worn - deepest)).saying(
        "After {seat_wear} of wear at the seats the plunger would stand {value} deep in {lifter_plunger_travel} of travel.",
        "Take {out:up} out of the preload, so that {limit} is not passed when the seats have worn.")
