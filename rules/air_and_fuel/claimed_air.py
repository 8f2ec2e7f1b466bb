"""The air behind a claim of power: four measures that guess at one thing, a note each, one warning where three agree."""

from buildlint.rulebook import *
from buildlint.tables.air_claims import (
    AGREEING, FILLING_FROM, HEAD_FLOW_SHARE, MACH_INDEX, PORT_SPEED, VOLUMETRIC_EFFICIENCY, row_of,
)

SPOKEN = "claimed-power-has-air speaks for all measures together"

ENGINE = """
build: {duty: %s, induction: natural, fuel: pump_gasoline, brake_specific_fuel: 0.46 lb/hp/h, peak_power: %s, peak_power_speed: 6200 rpm}  %s
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
fuel_system: {full_load_lambda: 0.88}
heads: {flow_bench: {depression: 28 inH2O}}
intake:
  valve: {head_diameter: %s}
  port: {flow: %s, smallest_area: %s, discharge_coefficient: 0.35}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The claimed power asks for a volumetric efficiency of {value}; engines for this duty reach {limit}.",
    fix="Claim about {power_to_expect:down}, or find the air: valve, port and flow for the power, or more speed.",
    source="Heywood, Internal Combustion Engine Fundamentals, sections 2.10 and 6.2; limits common practice, no source",
    when={"peak_power": given, "peak_power_speed": given},
    points_at=("peak_power",),
    conforming=(ENGINE % ("street_strip", "500 hp", "", "2.02 in", "260 ft^3/min", "2.10 in^2"),
                ENGINE % ("drag_race", "560 hp", "", "2.08 in", "300 ft^3/min", "2.40 in^2")),
    nonconforming=(ENGINE % ("street", "500 hp", "# <-", "2.02 in", "260 ft^3/min", "2.02 in^2"),
                   ENGINE % ("street_strip", "540 hp", "# <-", "2.10 in", "290 ft^3/min", "2.20 in^2")),
)
def claimed_power_has_air(
    volumetric_efficiency_of_claim: Fraction, duty: Choice, peak_power: Power, air_measures_beaten: Count,
    induction: Choice, inlet_mach_index: Ratio = None,
    head_flow_share: Fraction = None, port_velocity: Speed = None, *, note_above=VOLUMETRIC_EFFICIENCY,
    agreeing: Count = q("3", "count"),
):
    """Power is air burned: a claim says how well the cylinders would have to fill, and heads and valves say how well they can.

    Volumetric efficiency, inlet Mach index, head flow and port speed guess at the same thing in four ways. Each alone is
    a note; where three agree there is one warning, here, and the other three rules keep still.
    """
    kind = row_of(duty, induction)
    if air_measures_beaten >= agreeing:
        shares = {
            "cylinder filling": (volumetric_efficiency_of_claim, note_above[kind]),
            "inlet Mach index": (inlet_mach_index, MACH_INDEX[kind]), "head flow": (head_flow_share, HEAD_FLOW_SHARE[kind]),
            "port speed": (port_velocity, PORT_SPEED[kind])
        }
        beaten = {name: value / limit for name, (value, limit) in shares.items() if value is not None and value > limit}
        verdict = require(False, "warning")
        told = ", ".join(f"{name} {share - 1:.0%} over its usual limit" for name, share in beaten.items())
        verdict.saying(f"{len(beaten)} measures of air doubt the claimed power: {told.replace(' 0% over', ' just over')}.")
        return verdict.telling(power_to_expect=Power(peak_power / max(beaten.values())))
    verdict = at_most(Fraction(volumetric_efficiency_of_claim, "%"), note=note_above[kind])
    return verdict.telling(power_to_expect=Power(peak_power * min(note_above[kind] / volumetric_efficiency_of_claim, 1.0)))


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The inlet Mach index at the power peak is {value}: above {limit} the intake valve chokes the engine.",
    fix="An intake valve of {valve_to_reach:up}, or a power peak at {speed_to_reach:down}, would breathe freely; more lift area does the same.",
    source="Taylor, The Internal-Combustion Engine, vol. 1, ch. 6 (knee at 0.6, from memory); rows common practice, no source",
    when={"peak_power_speed": given},
    points_at=("intake_valve_head_diameter", "peak_power_speed"),
    conforming=ENGINE % ("street_strip", "450 hp", "", "2.02 in", "260 ft^3/min", "2.10 in^2"),
    nonconforming=(ENGINE % ("street", "420 hp", "", "1.94 in", "260 ft^3/min",
                             "2.20 in^2")).replace("valve: {head_diameter: 1.94 in}", "valve: {head_diameter: 1.94 in}  # <-"),
)
def inlet_valve_breathes_freely(
    inlet_mach_index: Ratio, duty: Choice, intake_valve_head_diameter: Length, peak_power_speed: Rpm, induction: Choice,
    air_measures_beaten: Count = None, volumetric_efficiency_of_claim: Fraction = None, *, note_above=MACH_INDEX,
    filling_from=FILLING_FROM,
):
    """Air through the valve never passes the speed of sound; well before that, filling falls off.

    The index is quoted with and without the flow coefficient, on throat or head; here with it, on the head. Late valves
    and tuned runners push the knee up, so race engines have more. An old engine with a small valve chokes at its power
    peak and says so by a modest claim: where the cylinders are not said to fill well there is nothing to doubt.
    """
    if (air_measures_beaten or 0) >= AGREEING:
        return not_applicable(SPOKEN)
    row = row_of(duty, induction)
    if volumetric_efficiency_of_claim is not None and volumetric_efficiency_of_claim <= filling_from[row]:
        return passes()
    limit = note_above[row]
    share = inlet_mach_index / limit
    return at_most(Ratio(inlet_mach_index),
                   note=limit).telling(valve_to_reach=Length(intake_valve_head_diameter * max(share, 1.0)**0.5),
                                       speed_to_reach=Rpm(peak_power_speed / max(share, 1.0)))


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The claimed power is {value} of what the intake flow is good for; engines for this duty reach {limit}.",
    fix="Claim about {power_to_expect:down}, or find {flow_to_reach:up} of intake flow at 28 inches of water.",
    source="0.257 hp per ft^3/min and cylinder, common practice, no source",
    when={"peak_power": given, "peak_power_speed": given, "head_flow_bench_depression": given},
    points_at=("peak_power", "intake_port_flow"),
    conforming=ENGINE % ("street_strip", "500 hp", "", "2.02 in", "260 ft^3/min", "2.10 in^2"),
    nonconforming=ENGINE % ("street", "440 hp", "# <-", "2.05 in", "220 ft^3/min", "2.20 in^2"),
)
def claimed_power_suits_head_flow(
    head_flow_share: Fraction, duty: Choice, peak_power: Power, inlet_flow_at_standard: Flow, induction: Choice,
    air_measures_beaten: Count = None, *, note_above=HEAD_FLOW_SHARE,
):
    """So much flow makes so much power, and a claim far above it comes from another head.

    The rule of thumb is for gasoline without boost; charge density and alcohol are counted in. A claim far below it is
    only an engine with heads to spare.
    """
    if (air_measures_beaten or 0) >= AGREEING:
        return not_applicable(SPOKEN)
    limit = note_above[row_of(duty, induction)]
    share = head_flow_share / limit
    return at_most(Fraction(head_flow_share, "%"), note=limit).telling(power_to_expect=Power(peak_power / max(share, 1.0)),
                                                                       flow_to_reach=Flow(
                                                                           inlet_flow_at_standard * max(share, 1.0), "ft^3/min"))


@rule(
    scope="build",
    level="note",
    due="planning",
    says="In the tightest place of the intake port the charge reaches {value} at the power peak; {side} {limit} {effect}.",
    fix="A smallest area of {area_to_reach} suits the power peak: {how}.",
    source="continuity; 600 ft/s common practice, no source",
    when={"intake_port_smallest_area": given, "peak_power_speed": given},
    points_at=("intake_port_smallest_area",),
    conforming=ENGINE % ("street_strip", "500 hp", "", "2.02 in", "260 ft^3/min", "2.10 in^2"),
    nonconforming=((ENGINE % ("street", "430 hp", "", "2.08 in", "280 ft^3/min", "1.80 in^2")).replace("0.35}", "0.35}  # <-"),
                   (ENGINE % ("street", "430 hp", "", "2.08 in", "280 ft^3/min", "3.60 in^2")).replace("0.35}", "0.35}  # <-")),
)
def port_speed_suits_peak_power(
    port_velocity: Speed, duty: Choice, intake_port_smallest_area: Area, induction: Choice, air_measures_beaten: Count = None, *,
    note_above=PORT_SPEED,
    street_note_below: Speed = q("110 m/s"), aim: Speed = q("165 m/s"),
):
    """A pinch that is too tight chokes the top, a port that is too big leaves the bottom soft.

    Six hundred feet a second, a little over half the speed of sound, is where ports stop paying; race ports are pushed
    further. The soft bottom is only asked about on the street.
    """
    if (air_measures_beaten or 0) >= AGREEING:
        return not_applicable(SPOKEN)
    kind = row_of(duty, induction)
    unit = "m/s" if intake_port_smallest_area.unit.startswith(("mm", "cm", "m")) else "ft/s"
    verdict = within(Speed(port_velocity, unit), note=(street_note_below if kind == "street" else None, note_above[kind]))
    fast = port_velocity > aim
    return verdict.telling(side="above" if fast else "below",
                           effect="the port chokes the engine" if fast else "the port is soft below the torque peak",
                           area_to_reach=Area(intake_port_smallest_area * port_velocity / aim),
                           how="open the pinch at the pushrod" if fast else "a smaller port, or a higher power peak")
