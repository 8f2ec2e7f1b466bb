"""Torque and power as claimed: do they fit each other, the curve, and what such an engine can hold in its cylinders."""

from buildlint.rulebook import *
from buildlint.tables.duties import BREATHING

# What mending a wrong unit does to the share of torque left at the power peak.
UNIT_SLIPS = ((1 / 1.341, ("hp and not kW",)), (1.341, ("kW and not hp",)), (1 / 1.356, ("lbf-ft and not N*m",)),
              (1.356, ("N*m and not lbf-ft",)))

CLAIM = """
build: {peak_torque: %s, peak_torque_speed: 4800 rpm, peak_power: %s, peak_power_speed: 6200 rpm}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="Torque peak and power peak cannot lie on one curve: {trouble}",
    fix="Read the sheet again: {peak_power} at {peak_power_speed} is {torque_there}, and {peak_torque} at {peak_torque_speed} is "
        "{power_there}.",
    source="P = T w; the band of torque left at the power peak common practice, no source",
    when={"peak_power": given, "peak_power_speed": given, "peak_torque": given, "peak_torque_speed": given},
    points_at=("peak_power", "peak_torque"),
    conforming=(CLAIM % ("450 lbf-ft", "500 hp", ""), CLAIM % ("610 N*m", "373 kW", "")),
    nonconforming=(CLAIM % ("450 lbf-ft", "560 hp", "# <-"), CLAIM % ("450 lbf-ft", "400 hp", "# <-"),
                   CLAIM % ("450 lbf-ft", "525 hp", "# <-"),
                   CLAIM % ("600 lbf-ft", "480 hp", "# <-")),
)
def torque_and_power_agree(
    peak_power: Power, peak_power_speed: Rpm, peak_torque: Torque, peak_torque_speed: Rpm, induction: Choice = None, *,
    least_left: Fraction = q("0.70", "fraction"), usual_left: Fraction = q("0.98", "fraction"),
):
    """Power is torque times speed: two peaks that cannot lie on one curve mean a unit, a wheel or a column was mistaken.

    At the power peak an engine still gives 0.78 to 0.97 of its best torque; one whose boost is held may give all of it.
    More than all is impossible, and so is less power at the power peak than the torque peak already makes.
    """
    if induction not in (None, "natural"):
        usual_left = q("1", "fraction")
    left = peak_power / peak_power_speed / peak_torque
    there = peak_torque * peak_torque_speed
    facts = {"torque_there": Torque(peak_power / peak_power_speed), "power_there": Power(there)}
    same = "the torque claimed as the best one"
    if there > peak_power * (1 + 1e-9):
        trouble = "the torque peak alone makes more power than the power peak."
        verdict = require(False, "error")
    elif left > 1:
        trouble = f"at the power peak the torque would be {{value}} of {same}."
        verdict = at_most(Fraction(left), error=q("1", "fraction"))
    else:
        trouble = f"at the power peak {{value}} of {same} would be left; {{least_left}} to {{most_left}} is what engines do."
        facts["most_left"] = usual_left
        verdict = within(Fraction(left), warning=(least_left, usual_left))
    if verdict.kind == "fail":
        meant = [f"{unit} was meant" for factor, units in UNIT_SLIPS for unit in units if 0.78 <= left * factor <= 0.97]
        trouble += f" It fits if {' or '.join(meant)}." if meant else ""
    return verdict.telling(**facts).saying(f"Torque peak and power peak cannot lie on one curve: {trouble}")


CURVE = """
build:
  peak_torque: %s
  peak_power: %s  %s
  peak_power_speed: 6000 rpm
  torque_curve: [[3000 rpm, 400 lbf-ft], [4000 rpm, 440 lbf-ft], [4800 rpm, 450 lbf-ft], [5500 rpm, 440 lbf-ft], [6000 rpm, 425 lbf-ft]]
"""


@rule(
    scope="build",
    level="error",
    due="handover",
    says="The curve gives {value} at {peak_power_speed}, but {limit} is stated{torque_said}.",
    fix="Torque and power curves must cross at 5252 rpm in lbf-ft and hp (9549 rpm in N*m and kW); take both columns from one sheet, both "
        "at the wheels or both at the flywheel.",
    source="P = T w; 0.5 and 2 percent common practice, no source",
    when={"torque_curve": given, "peak_power": given, "peak_power_speed": given},
    points_at=("peak_power", "torque_curve"),
    conforming=CURVE % ("450 lbf-ft", "485.5 hp", ""),
    nonconforming=(CURVE % ("450 lbf-ft", "540 hp", "# <-"), CURVE % ("450 lbf-ft", "490 hp", "# <-")),
)
def torque_and_power_curves_cross(
    torque_curve: Table, peak_power: Power, peak_power_speed: Rpm, peak_torque: Torque = None, *,
    warning_beyond: Fraction = q("0.005", "fraction"), error_beyond: Fraction = q("0.02", "fraction"),
    between_points: Fraction = q("0.01", "fraction"), coarse: Fraction = q("0.02", "fraction"), same_speed: Rpm = q("2 rpm"),
):
    """Columns swapped, corrected beside observed, wheels beside flywheel: the curve shows it where power is torque times speed.

    Between two points a straight line lies below the curve, so a percent is allowed there, and two where the best torque
    falls between the points of a coarse curve. Outside the curve nothing is said.
    """
    rows = sorted(torque_curve)
    torque = _between(rows, peak_power_speed)
    if torque is None:
        return not_applicable("the curve does not reach the power peak")
    power = torque * peak_power_speed
    on_a_point = any(abs(speed - peak_power_speed) < same_speed for speed, _ in rows)
    gap = max(abs(power / peak_power - 1) - (0.0 if on_a_point else between_points), 0.0)
    torque_said = ""
    if peak_torque is not None:
        best = max(row[1] for row in rows) / peak_torque
        missed = best - 1 if best > 1 else max(1 - best - coarse, 0.0)
        if missed > max(gap, warning_beyond):
            gap, torque_said = missed, f"; its best torque is {best:.1%} of the one stated"
    verdict = at_most(Fraction(gap), error=error_beyond, warning=warning_beyond)
    verdict.comparing(Power(power), Power(peak_power))
    return verdict.telling(torque_said=torque_said)


def _between(rows, speed):
    for (low, at_low), (high, at_high) in zip(rows, rows[1:]):
        if low * (1 - 1e-9) <= speed <= high * (1 + 1e-9):
            return at_low + (at_high - at_low) * (speed - low) / (high - low) if high > low else at_low
    return None


HELD = """
build: {duty: %s, induction: %s, fuel: pump_gasoline, peak_torque: %s, peak_torque_speed: 4800 rpm}  %s
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
boost: {pressure: %s}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{peak_torque} is a mean effective pressure of {value}; {class_said} engines give up to {limit}.{pressure_said}",
    fix="Plan with {torque_to_expect:down}, or show the dynamometer sheet with its correction.",
    source="common practice, no source, within 0.4 bar; Heywood, section 2.7: production engines 8.5 to 10.5 bar natural (from memory)",
    when={"peak_torque": given},
    compares=("peak_cylinder_pressure",),
    points_at=("peak_torque",),
    conforming=(HELD % ("street_strip", "natural", "450 lbf-ft", "", "0 psi"),
                HELD % ("street", "turbocharged", "560 lbf-ft", "", "10 psi")),
    nonconforming=(HELD % ("street", "natural", "480 lbf-ft", "# <-", "0 psi"),
                   HELD % ("street_strip", "natural", "490 lbf-ft", "# <-", "0 psi"),
                   HELD % ("street", "turbocharged", "800 lbf-ft", "# <-", "8 psi"),
                   HELD % ("drag_race", "natural", "240 lbf-ft", "# <-", "0 psi")),
)
def claimed_torque_is_possible(
    peak_torque: Torque, mean_effective_pressure: Pressure, duty: Choice, induction: Choice, fuel: Choice,
    charge_density_factor: Ratio, nitrous_mean_effective_pressure: Pressure = None,
    peak_cylinder_pressure_written: Pressure = None,
    peak_cylinder_pressure_computed: Pressure = None, *,
    note_above={"street": q("12.4 bar"), "strip": q("13.8 bar"), "race": q("15.2 bar"), "boosted": q("14.5 bar")},
    warning_above={"street": q("13.4 bar"), "strip": q("14.5 bar"), "race": q("15.8 bar"), "boosted": q("15.5 bar")},
    low_below: Pressure = q("8 bar"), alcohol={"e85": q("1.04", "ratio"), "ethanol": q("1.05", "ratio"),
                                               "methanol": q("1.08", "ratio")},
    pressure_within: Fraction = q("0.25", "fraction"),
):
    """What a cylinder can hold is known within a few percent: a claim above it is a correction factor or a hope.

    Boosted engines are held against the density of their charge, not its pressure; alcohols cool the charge and gain a
    little; a shot adds its own. Below 8 bar a performance build has a wrong unit or a modest owner, which is noted. A
    peak pressure that is written beside the claim must belong to it within a quarter.
    """
    kind = "boosted" if induction != "natural" else BREATHING[duty]
    factor = alcohol.get(fuel, 1.0) * (charge_density_factor if kind == "boosted" else 1.0)
    shot = nitrous_mean_effective_pressure or 0.0
    note, warning = note_above[kind] * factor + shot, warning_above[kind] * factor + shot
    verdict = at_most(Pressure(mean_effective_pressure), warning=warning, note=note)
    pressure_said = ""
    if verdict.kind == "pass" and mean_effective_pressure < low_below and BREATHING[duty] != "street":
        verdict = at_least(Pressure(mean_effective_pressure), note=low_below)
        verdict.saying(
            "{peak_torque} is a mean effective pressure of only {value}; an engine for this duty gives well above {limit}.",
            "Look at the unit of the torque, or take it as a modest plan.")
    elif verdict.kind == "pass" and peak_cylinder_pressure_written is not None and peak_cylinder_pressure_computed is not None:
        share = peak_cylinder_pressure_written / peak_cylinder_pressure_computed
        if abs(share - 1) > pressure_within:
            verdict = require(False, "note")
            verdict.value, verdict.limit = Pressure(mean_effective_pressure), Pressure(note)
            pressure_said = (f" The peak cylinder pressure written beside it is {share:.0%} of what this torque makes by the cycle: they "
                             "are of two engines.")
    said = {"street": "street", "strip": "street and strip", "race": "race", "boosted": "boosted"}[kind]
    return verdict.telling(class_said=said, pressure_said=pressure_said,
                           torque_to_expect=Torque(peak_torque * min(note / mean_effective_pressure, 1.0)))
