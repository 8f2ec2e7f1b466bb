"""Nitrous: how big a shot, what switches it, what fuel and delivery it asks for, and where in the speed range it comes."""

from buildlint.rulebook import *
from buildlint.tables.fuels import ALCOHOLS

CUBIC_INCH = q("1 in^3")
RACING = ("drag_race", "road_race", "oval_race")
CAUTION = ("Nitrous oxide is stored under pressure and feeds any fire: relief disk vented outside, bottle held by its bracket, "
           "the kit maker's instructions and the class rules followed.")

SHOT = """
build: {duty: %s}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {class: %s}
nitrous: {power: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The shot is {value} for each cubic inch; {limit} is what {whom} are run to.",
    fix="Stay at or below {stay:down}, or build for it: head studs, wide ring gaps, a thick top land, a strong crank and rods.",
    source="common practice, no source",
    when={"nitrous_power": fitted},
    points_at=("nitrous_power",),
    conforming=(SHOT % ("street_strip", "forged_2618", "150 hp", ""), SHOT % ("drag_race", "forged_2618", "350 hp", ""),
                SHOT % ("street", "hypereutectic", "250 hp", "")),
    nonconforming=(SHOT % ("street_strip", "forged_2618", "250 hp", "# <-"), SHOT % ("drag_race", "forged_2618", "450 hp", "# <-")),
)
def nitrous_shot_suits_engine(
    nitrous_power: Power, displacement: Volume, duty: Choice = None, piston_class: Choice = None, *,
    street: Power = q("0.60 hp"), race: Power = q("1.1 hp"),
):
    """Power from a bottle comes as torque at low speed, where it bends rods and lifts heads.

    Counted by the engine's size. Cast and hypereutectic pistons have far lower lines, told by the rule on pistons; here it is
    the rest of the engine, with forged pistons: 0.60 hp a cubic inch outside racing, 1.1 in an engine built for it.
    """
    if piston_class in ("cast", "hypereutectic"):
        return not_applicable("the pistons have their own line")
    racing = duty in RACING
    limit = race if racing else street
    verdict = at_most(Power(nitrous_power / displacement * CUBIC_INCH), warning=limit)
    return verdict.telling(whom="engines built for racing with it" if racing else "street engines with forged pistons",
                           stay=Power(limit * displacement / CUBIC_INCH))


SWITCHES = """
build: {stage: ordering, rev_limit: 6800 rpm}
nitrous: {power: 150 hp, full_throttle_switch: %s, fuel_pressure_switch: %s, speed_low: %s, speed_high: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source",
    when={"nitrous_power": fitted},
    points_at=("nitrous_full_throttle_switch", "nitrous_power"),
    caution=CAUTION,
    permits=False,
    conforming=SWITCHES % ("fitted", "fitted", "3000 rpm", "6500 rpm", ""),
    nonconforming=(SWITCHES % ("none", "fitted", "3000 rpm", "6500 rpm", "# <-"), SWITCHES % ("fitted", "none", "3000 rpm", "6500 rpm", "# <-"),
                   SWITCHES % ("fitted", "fitted", "2400 rpm", "6500 rpm", "# <-"), SWITCHES % ("fitted", "fitted", "3000 rpm", "6800 rpm", "# <-")),
)
def nitrous_has_safety_switches(
    nitrous_power: Power, nitrous_full_throttle_switch: Choice = None, nitrous_fuel_pressure_switch: Choice = None,
    nitrous_speed_low: Rpm = None, nitrous_speed_high: Rpm = None, nitrous_fuel_from: Choice = None, rev_limit: Rpm = None, *,
    least_speed: Rpm = q("2800 rpm"), below_limiter: Rpm = q("100 rpm"),
):
    """Nitrous at part throttle, at low speed, or without fuel blows the manifold off; on a cutting limiter it does the same.

    Three switches stand between the button and that: full throttle, engine speed, fuel pressure. Written by number, since a
    window is only as good as its lower end; its upper end stays below the limiter, or the spark is cut with the bottle open.
    """
    switches = [("nitrous_full_throttle_switch", nitrous_full_throttle_switch, "A full-throttle switch is left out",
                 "Fit a switch that closes only at the stop of the throttle.")]
    if nitrous_fuel_from != "dry":
        switches.append(("nitrous_fuel_pressure_switch", nitrous_fuel_pressure_switch, "A fuel-pressure switch is left out",
                         "Fit a pressure switch in the fuel line of the kit that opens the circuit when the pressure falls."))
    for word, state, what, remedy in switches:
        if state == "none":
            return require(False).at(word).telling(sentence=f"{what}.", remedy=remedy)
    if nitrous_speed_low is not None and nitrous_speed_low < least_speed * (1 - 1e-9):
        return at_least(nitrous_speed_low, error=least_speed).at("nitrous_speed_low").saying(
            "The shot may come in at {value}; below {limit} it stalls in the runners and goes off there.",
            "Set the speed switch to {limit} or more.")
    missing = [word for word, state, _, _ in switches if state is None] + (["nitrous_speed_low"] if nitrous_speed_low is None else [])
    if missing:
        return lacking(*missing)
    if nitrous_speed_high is not None and rev_limit is not None:
        verdict = at_most(nitrous_speed_high, warning=Rpm(rev_limit - below_limiter)).at("nitrous_speed_high")
        return verdict.saying("The shot stays on to {value}; the limiter cuts the spark at {rev_limit}.",
                              "Let the speed switch shut it off at {limit} or below.")
    return passes()


OCTANE = """
build: {fuel: %s}
fuel_system: {octane: %s, octane_scale: aki}
nitrous: {power: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{nitrous_power} of nitrous on {octane_shown} octane (AKI); a shot above {shot:down} wants {limit}.",
    fix="Fill at least {limit} (AKI), feed the shot from a cell of its own with race fuel, or stay at {shot:down} or below.",
    source="common practice, no source",
    when={"nitrous_power": fitted},
    points_at=("nitrous_power", "fuel_octane"),
    conforming=(OCTANE % ("pump_gasoline", "93", "150 hp", ""), OCTANE % ("race_gasoline", "110", "300 hp", ""), OCTANE % ("pump_gasoline", "87", "75 hp", ""),
                OCTANE % ("e85", "97", "250 hp", "")),
    nonconforming=(OCTANE % ("pump_gasoline", "87", "100 hp", "# <-"), OCTANE % ("pump_gasoline", "93", "250 hp", "# <-")),
)
def nitrous_fuel_has_octane(
    nitrous_power: Power, fuel: Choice, antiknock_index: Octane = None, nitrous_fuel_from: Choice = None, *, small: Power = q("75 hp"), large: Power = q("200 hp"),
    for_small: Octane = q("91", "octane"), for_large: Octane = q("100", "octane"),
):
    """Oxygen without nitrogen burns faster and hotter; the charge that burns last knocks first.

    A shot that brings fuel of its own system may bring better fuel; what the tank holds is then not judged. Alcohols cool the
    charge so much that their octane number says too little; they pass.
    """
    if nitrous_fuel_from == "own_system" or fuel in ALCOHOLS:
        return not_applicable("the shot has its own fuel, or the tank holds alcohol")
    if antiknock_index is None:
        return lacking("fuel_octane")
    shown = f"{float(antiknock_index):.3g}"
    if nitrous_power > large * (1 + 1e-9):
        return at_least(Octane(antiknock_index), Octane(for_large)).telling(shot=large, octane_shown=shown)
    if nitrous_power > small * (1 + 1e-9):
        return at_least(Octane(antiknock_index), Octane(for_small)).telling(shot=small, octane_shown=shown)
    return passes()


DELIVERY = """
nitrous: {power: %s, delivery: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{value} through one plate; above {limit} the end cylinders get what the middle ones miss.",
    fix="Take a fogger or direct-port system above {limit}, and read every plug after the first pass.",
    source="common practice, no source",
    when={"nitrous_power": fitted, "nitrous_delivery": ("plate",)},
    conforming=(DELIVERY % ("250 hp", "plate", ""), DELIVERY % ("400 hp", "direct_port", "")),
    nonconforming=DELIVERY % ("300 hp", "plate", "# <-"),
)
def nitrous_delivery_suits_shot(nitrous_power: Power, *, most: Power = q("250 hp")):
    """A plate sprays into one plenum and trusts the manifold to share; the larger the shot, the less it does."""
    return at_most(nitrous_power, most)


BOTTLE = """
nitrous: {power: 150 hp, bottle_pressure: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="handover",
    says="The bottle is run at {value}; jets are made for {low:up} to {high:down}.",
    fix="{remedy}",
    source="common practice, no source",
    when={"nitrous_bottle_pressure": given},
    caution=CAUTION,
    conforming=(BOTTLE % ("950 psi", ""), BOTTLE % ("1050 psi", "")),
    nonconforming=(BOTTLE % ("750 psi", "# <-"), BOTTLE % ("1200 psi", "# <-")),
)
def nitrous_bottle_pressure_is_usual(nitrous_bottle_pressure: Pressure, *, low: Pressure = q("900 psi"), high: Pressure = q("1050 psi")):
    """Pressure sets the flow of liquid through the jet, fuel does not follow: low runs rich, high runs lean."""
    verdict = within(nitrous_bottle_pressure, low, high)
    remedy = ("Warm the bottle with a thermostatic heater or warm water, never a flame, to {low:up} or more." if verdict.facts.get("side") == "below"
              else "Let it cool to {high:down} before it is run, and look why it was heated so far.")
    return verdict.saying(fix=remedy)


STALL = """
build: {transmission: automatic}
nitrous: {power: 150 hp, speed_low: %s}
driveline: {converter: {stall: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The converter stalls at {value}, below the {limit} at which the shot may come in.",
    fix="Raise the lowest nitrous speed no further, but the stall to {limit} or more; or arm the shot only after the launch, by time or gear.",
    source="common practice, no source",
    when={"nitrous_power": fitted, "transmission": ("automatic",)},
    points_at=("converter_stall",),
    conforming=STALL % ("3000 rpm", "3200 rpm", ""),
    nonconforming=STALL % ("3200 rpm", "2600 rpm", "# <-"),
)
def nitrous_window_suits_stall(converter_stall: Rpm, nitrous_speed_low: Rpm, duty: Choice = None):
    """A launch below the window asks the shot to come in with the converter tight and the car already moving.

    It then hits as one blow in the middle of a gear, on tires and gearbox; and whoever lowers the window instead lights the
    runners below 2800 rpm. A street car that never launches on the bottle is only noted.
    """
    verdict = at_least(converter_stall, nitrous_speed_low)
    return verdict.within_level("note") if duty in ("stock", "street", "marine", "towing") else verdict
