"""The tip of the valve: hard enough, long enough, level with the others, and its cap."""

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
    says="{spring_open_load_largest} open wears a valve tip that is not hard ({tip_text}).",
    fix="Order valves with a hardened tip ({hard_enough:up} or more), or fit lash caps of the right bore; a cap raises the tip, so "
        "check rocker wipe and pushrod length again.",
    source="common practice, no source; tips of 50 to 59 HRC: trade press",
    points_at=("valve_tip", "valve_material"),
    conforming=(TIP % ("hardened_wafer", "none", "", "460 lbf"), TIP % ("plain", "fitted", "", "460 lbf"),
                TIP % ("plain", "none", "", "240 lbf"), """
        intake:
          valve: {material: chrome_silicon_steel, tip: plain, tip_hardness: 54 HRC}
          spring: {open_load: 460 lbf}
        """),
    nonconforming=(TIP % ("plain", "none", "# <-", "460 lbf"), TIP % ("plain", "none", "# <-", "396 lbf"),
                   TIP % ("plain", "none", "# <-", "260 lbf"), """
        intake:
          valve: {material: titanium, tip: plain}  # <-
          spring: {open_load: 240 lbf}
        """, """
        intake:
          spring: {open_load: 460 lbf}  # <-
        """, """
        exhaust:
          valve: {build: sodium_filled, tip: hardened_wafer, tip_ground_off: 0.015 in}  # <-
          spring: {open_load: 300 lbf}
        """),
)
def valve_tip_is_hard_enough(
    spring_open_load_largest: Force, valve_tip: Choice = None, valve_tip_hardness: Hardness = None, valve_lash_cap: Choice = None,
    valve_material: Choice = None, valve_build: Choice = None, valve_tip_ground_off: Length = None, *,
    warning_above: Force = q("350 lbf"), error_above: Force = q("420 lbf"), austenitic_warning_above: Force = q("250 lbf"),
    hard_enough: Hardness = q("50 HRC"), most_off_a_wafer: Length = q("0.010 in"),
):
    """A soft tip under a stiff spring mushrooms: lash opens, the rocker digs in, the tip ends up in the oil.

    A stock-type tip lives under stock-type loads, whatever rocker meets it. Austenitic steel cannot be hardened, so a
    plain austenitic tip is asked about earlier; titanium needs a hard tip or a cap at any load. The hard end of a
    hollow or sodium-filled stem is a thin wafer that grinding takes away. A tip of which nothing is written counts as
    plain. The loads are the trade's; a shop may set its own.
    """
    hard = valve_tip in ("through_hardened", "hardened_wafer", "hard_faced", "hard_insert")
    if valve_tip_hardness is not None and valve_tip_hardness.unit == hard_enough.unit:
        hard = valve_tip_hardness >= hard_enough
    if valve_lash_cap == "fitted":
        return passes()
    if hard:
        thin = valve_tip == "hardened_wafer" and valve_build in ("sodium_filled", "hollow_stem")
        if thin and valve_tip_ground_off is not None:
            return at_most(valve_tip_ground_off, most_off_a_wafer).at("valve_tip_ground_off").saying(
                "{valve_tip_ground_off} was ground off the thin hard wafer of a hollow stem; {limit} is the most.",
                "Fit new valves, or lash caps of the right bore.")
        return passes()
    tip_text = "nothing is written of it" if valve_tip is None else f"{valve_tip.replace('_', ' ')} tip"
    if valve_material == "titanium":
        return require(False).telling(tip_text="titanium without a hard tip or cap")
    softest = austenitic_warning_above if str(valve_material).startswith("austenitic") and valve_tip == "plain" else warning_above
    return at_most(spring_open_load_largest, error=error_above, warning=softest).telling(tip_text=tip_text)


CAP = """
rockers: {wipe_width: 0.045 in, wipe_off_center: %s}  %s
intake:
  valve: {lash_cap: fitted, lash_cap_bore: 0.343 in, lash_cap_to_lock_gap: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The lash cap comes within {value} of the locks; keep {limit}, or it rides on them instead of the tip.",
    fix="Fit a shallower cap or locks that sit lower by {short:up}.",
    source="common practice, no source",
    when={"valve_lash_cap": fitted},
    points_at=("valve_lash_cap_to_lock_gap",),
    conforming=CAP % ("0.010 in", "", "0.020 in", ""),
    nonconforming=(CAP % ("0.010 in", "", "0.005 in", "# <-"), CAP % ("0.095 in", "# <-", "0.020 in", "")),
)
def lash_cap_fits_the_tip(
    valve_lash_cap_to_lock_gap: Length, valve_lash_cap_bore: Length = None, rocker_wipe_off_center: Length = None,
    rocker_wipe_width_largest: Length = None, *, least: Length = q("0.010 in"), middle: Fraction = q("0.60", "fraction"),
):
    """A cap that stands on the locks drives them out of the retainer, and one that is pushed at its rim tips off.

    The roller stays within the middle six tenths of the cap. A cap raises the tip by its thickness, not the retainer:
    installed height stays, rocker and retainer come apart, a rod on a fixed pivot gets shorter, the pattern moves.
    """
    verdict = at_least(valve_lash_cap_to_lock_gap, warning=least).telling(short=Length(least - valve_lash_cap_to_lock_gap))
    if verdict.kind == "fail" or None in (valve_lash_cap_bore, rocker_wipe_off_center, rocker_wipe_width_largest):
        return verdict
    reach = Length(rocker_wipe_off_center + rocker_wipe_width_largest / 2)
    return at_most(reach, warning=Length(middle * valve_lash_cap_bore / 2)).at("rocker_wipe_off_center").saying(
        "The roller works up to {value} from the middle of the lash cap; within {limit} it cannot tip it.",
        "Bring the pattern nearer to the middle with the pushrod's length or the stand.")


LENGTH = """
intake:
  valve: {tip_to_groove: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="{valve_tip_to_groove} of tip is left above the lock groove; keep {limit}.",
    fix="Fit new valves, or lash caps; do not grind these tips again.",
    source="common practice, no source",
    points_at=("valve_tip_to_groove", "valve_condition"),
    conforming=(LENGTH % ("0.060 in", ""), LENGTH % ("0.150 in", "")),
    nonconforming=(LENGTH % ("0.050 in", "# <-"), """
        build: {stage: machining}
        intake:
          valve: {condition: reconditioned}  # <-
        """),
)
def valve_tip_keeps_its_length(valve_tip_to_groove: Length = None, valve_condition: Choice = None, *, least: Length = q("0.060 in")):
    """A tip ground too short breaks off at the groove, and the rocker comes down on the retainer.

    Figures from 0.060 to 0.090 in are in use; the smaller one is where nobody grinds on. New valves are as their maker left
    them; of reconditioned ones the tip has to be measured, since nobody knows how often it was ground.
    """
    if valve_tip_to_groove is not None:
        return at_least(valve_tip_to_groove, warning=least)
    if valve_condition == "reconditioned":
        return wanting("valve_tip_to_groove").at("valve_condition").saying(
            "The valves are reconditioned, and nothing is written of how much tip is left above the lock groove.",
            "Measure from the lock groove to the tip and write valve.tip_to_groove; keep {least}.")
    return not_applicable("new valves, and the tip is not written")


LEVEL = """
engine: {cylinders: 4}
rockers: {ratio: 1.7, adjustment: %s}
intake:
  valve:
    stem_height: %s  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The valve tips stand at heights that differ by {valve_stem_height_spread}; keep them within {limit}.{preload}",
    fix="Set the seats, or trim the tall tips where {tip_left} is left above the groove, never on a thin wafer.",
    source="service practice; limits common practice, no source",
    when={"valve_stem_height_spread": given},
    points_at=("valve_stem_height",),
    conforming=(LEVEL % ("none_net_lash", "[2.560 in, 2.562 in, 2.558 in, 2.566 in]", ""),
                LEVEL % ("stud_nut", "[2.560 in, 2.562 in, 2.558 in, 2.575 in]", "")),
    nonconforming=(LEVEL % ("none_net_lash", "[2.556 in, 2.562 in, 2.558 in, 2.572 in]", "# <-"),
                   LEVEL % ("none_net_lash", "[2.550 in, 2.562 in, 2.558 in, 2.572 in]", "# <-"),
                   LEVEL % ("stud_nut", "[2.550 in, 2.562 in, 2.558 in, 2.575 in]", "# <-")),
)
def valve_stem_tips_are_level(
    valve_stem_height_spread: Length, rocker_adjustment: Choice = None, rocker_ratio: Ratio = None, *,
    warning_above: Length = q("0.010 in"), error_above: Length = q("0.020 in"), adjustable_note_above: Length = q("0.020 in"),
    tip_left: Length = q("0.060 in"),
):
    """Without adjusters every difference in tip height is a difference in preload, divided by the rocker's ratio.

    With adjusters it is only an uneven stack of springs and a rocker that sweeps differently.
    """
    if rocker_adjustment in ("stud_nut", "pushrod_end"):
        verdict = at_most(valve_stem_height_spread, note=adjustable_note_above)
    elif rocker_adjustment is None:
        if valve_stem_height_spread > warning_above:
            return lacking("rocker_adjustment")
        return passes()
    else:
        verdict = at_most(valve_stem_height_spread, warning=warning_above, error=error_above)
        if rocker_ratio:
            verdict.telling(uneven=Length(valve_stem_height_spread / rocker_ratio)).saying(
                "The valve tips stand at heights that differ by {valve_stem_height_spread}; keep them within {limit}. The preload "
                "differs by {uneven}.")
    return verdict.telling(preload="")
