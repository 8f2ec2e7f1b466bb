"""Tips, locks, retainers and seals: the small parts at the top of the valve."""

from buildlint.rulebook import *

TIP = """
intake:
  valve: {material: austenitic_21_4n, tip: %s, lash_cap: %s}  %s
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{spring_open_load} open wears a valve tip that is not hard ({tip_text}).",
    fix="Order valves with a hardened tip (50 HRC or more), or fit lash caps of the right bore; a cap raises the tip, so "
        "check rocker wipe and pushrod length again.",
    source="common practice, no source",
    points_at=("valve_tip", "valve_material"),
    conforming=(TIP % ("hardened_wafer", "none", "", "460 lbf"), TIP % ("plain", "fitted", "", "460 lbf"),
                TIP % ("plain", "none", "", "240 lbf")),
    nonconforming=(TIP % ("plain", "none", "# <-", "460 lbf"), TIP % ("plain", "none", "# <-", "396 lbf"), """
        intake:
          valve: {material: titanium, tip: plain}  # <-
          spring: {open_load: 240 lbf}
        """, """
        intake:
          spring: {open_load: 460 lbf}  # <-
        """),
)
def valve_tip_is_hard_enough(
    spring_open_load: Force, valve_tip: Choice = None, valve_tip_hardness: Hardness = None, valve_lash_cap: Choice = None,
    valve_material: Choice = None, *,
    warning_above: Force = q("350 lbf"), error_above: Force = q("420 lbf"), austenitic_warning_above: Force = q("250 lbf"),
    hard_enough: Hardness = q("50 HRC"),
):
    """A soft tip under a stiff spring mushrooms: lash opens, the rocker digs in, the tip ends up in the oil.

    A stock-type tip lives under stock-type loads. Austenitic steel cannot be hardened, so a plain austenitic tip
    is asked about earlier; titanium needs a hard tip or a cap at any load. A tip of which nothing is written
    counts as plain. The loads are the trade's; a shop may set its own.
    """
    hard = valve_tip in ("through_hardened", "hardened_wafer", "hard_faced", "hard_insert")
    if valve_tip_hardness is not None and valve_tip_hardness.unit == hard_enough.unit:
        hard = valve_tip_hardness >= hard_enough
    if valve_lash_cap == "fitted" or hard:
        return passes()
    tip_text = "nothing is written of it" if valve_tip is None else f"{valve_tip.replace('_', ' ')} tip"
    if valve_material == "titanium":
        return require(False).telling(tip_text="titanium without a hard tip or cap")
    softest = austenitic_warning_above if str(valve_material).startswith("austenitic") and valve_tip == "plain" else warning_above
    return at_most(spring_open_load, error=error_above, warning=softest).telling(tip_text=tip_text)


SEAL = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  retainer: {seal_gap_shut: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="At full lift {value} is left between retainer and seal; keep {limit}.",
    fix="Cut the guide or fit a lower seal by {short}, fit offset locks, or use less lift.",
    source="common practice, no source",
    points_at=("retainer_seal_gap_shut",),
    conforming=(SEAL % ("0.690 in", ""), SEAL % ("0.661 in", "")),
    nonconforming=(SEAL % ("0.650 in", "# <-"), SEAL % ("0.620 in", "# <-")),
)
def retainer_clears_the_seal(
    retainer_seal_gap_shut: Length, valve_lift: Length, *,
    warning_below: Length = q("0.060 in"), error_below: Length = q("0.030 in"),
):
    """A retainer that strikes the seal tears it off, and one that strikes the guide bends or drops the valve.

    Shops keep 0.050 to 0.060 in, some 0.100; the figure covers a ratio over nominal and a little loft.
    """
    left = retainer_seal_gap_shut - valve_lift
    verdict = at_least(Length(left), warning=warning_below, error=error_below)
    return verdict.telling(short=Length(warning_below - left))


LOCKS = """
intake:
  retainer: {angle: %s, family: %s}
  locks: {angle: 7 deg, family: standard}  # <-
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The locks ({lock_angle}, {lock_family}) do not fit the retainer ({retainer_angle}, {retainer_family}).",
    fix="Order retainers and locks as one matched set.",
    source="common practice, no source",
    points_at=("lock_angle", "lock_family"),
    conforming=(LOCKS % ("7 deg", "standard")).replace("  # <-", ""),
    nonconforming=(LOCKS % ("10 deg", "standard"), LOCKS % ("7 deg", "large")),
)
def locks_match_the_retainer(
    lock_angle: Angle, retainer_angle: Angle, lock_family: Choice = None, retainer_family: Choice = None, *,
    tolerance: Angle = q("0.1 deg"),
):
    """A lock that does not fill its taper holds by a line; the valve drops, and the engine with it.

    The same angle is not enough: large locks of 7 degrees do not fit a standard retainer of 7 degrees.
    """
    verdict = matches(lock_angle, retainer_angle, tolerance=tolerance)
    if verdict.kind == "pass" and lock_family is not None and retainer_family is not None:
        return matches(lock_family, retainer_family)
    return verdict
