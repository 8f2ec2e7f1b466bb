"""A blower on its belt: what its drive makes, how fast it turns, how the belt holds, and what the crank's snout bears."""

from buildlint.rulebook import *
from buildlint.tables.compressors import BELT_DRIVEN, DISPLACING

TEN_RPM = q("10 rpm")  # a speed to set is told rounded down

DRIVE = """
build: {induction: supercharged}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
boost: {pressure: %s, compressor: high_helix, blower_displacement: 2.3 L, crank_pulley: 6.72 in, blower_pulley: %s, cooler: {kind: none}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{boost_pressure} is stated, but {boost_blower_displacement} a turn at {blower_drive_ratio} turns for each of the crank makes about "
         "{blower_pressure_expected}.",
    fix="Order a blower pulley of about {pulley} for {boost_pressure}, or state the boost this drive makes; the blower maker's chart wins.",
    source="continuity; delivery by kind of blower common practice, no source",
    when={"boost_blower_displacement": given, "boost_compressor": DISPLACING},
    points_at=("boost_pressure",),
    conforming=(DRIVE % ("7.75 psi", "3.2 in", ""), DRIVE % ("6 psi", "3.2 in", "")),
    nonconforming=(DRIVE % ("5 psi", "3.2 in", "# <-"), DRIVE % ("15 psi", "4.2 in", "# <-")),
)
def blower_drive_gives_stated_pressure(
    boost_pressure: Pressure, blower_pressure_expected: Pressure, blower_drive_ratio: Ratio, blower_delivery: Ratio,
    boost_blower_displacement: Volume, displacement: Volume, air_pressure: Pressure, boost_crank_pulley: Length,
    boost_compressor: Choice, boost_blower_step_up: Ratio = None, *, noted_beyond: Fraction = q("0.35", "fraction"),
    warned_beyond: Fraction = q("0.60", "fraction"),
):
    """A pulley bought for the wrong boost is either a lazy engine or a melted one.

    The volume the blower sweeps over the volume the engine swallows gives the pressure; leakage back and heat forward nearly
    cancel, which leaves a factor of 0.75 for straight lobes and 0.92 for twisted rotors and screws. Multiplying displacements
    alone reads too high, heating alone far too high. The estimate is good to a third, so only gross differences are told.
    Centrifugal compressors make pressure with the square of their speed and are not judged here.
    """
    if boost_pressure <= 0:
        return not_applicable("no boost is stated")
    verdict = at_most(Fraction(abs(blower_pressure_expected - boost_pressure) / boost_pressure), note=noted_beyond, warning=warned_beyond)
    needed = (air_pressure + boost_pressure) / air_pressure * displacement / (2 * blower_delivery * boost_blower_displacement)
    return verdict.telling(pulley=Length(boost_crank_pulley * (boost_blower_step_up or 1.0) / needed))


ROTOR = """
build: {induction: supercharged, rev_limit: 6200 rpm}
boost: {compressor: high_helix, crank_pulley: 7.0 in, blower_pulley: %s, blower_speed_limit: 16000 rpm}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The rotor turns {value} at the limiter of {rev_limit}; it is good for {limit}.",
    fix="Fit a blower pulley of at least {pulley:up}, or set the limiter to {speed:down}.",
    near="The rotor turns {value} at the limiter of {rev_limit}, close to its limit of {limit}.",
    source="the compressor maker's speed limit",
    when={"boost_blower_speed_limit": given},
    points_at=("boost_blower_pulley",),
    conforming=(ROTOR % ("3.0 in", ""), ROTOR % ("2.86 in", "")),
    nonconforming=(ROTOR % ("2.6 in", "# <-"), ROTOR % ("2.75 in", "# <-")),
)
def blower_rotor_stays_below_limit(
    blower_speed: Rpm, boost_blower_speed_limit: Rpm, blower_drive_ratio: Ratio, boost_blower_pulley: Length, rev_limit: Rpm, *,
    warned_from: Fraction = q("0.95", "fraction"),
):
    """Rotors that touch at fifteen thousand turns end the engine with the blower; impellers burst.

    The last twentieth below the maker's limit is a warning: belts do not slip so exactly, and limiters overshoot.
    """
    verdict = at_most(Rpm(blower_speed), error=boost_blower_speed_limit, warning=Rpm(warned_from * boost_blower_speed_limit))
    if verdict.level == "warning":
        verdict.limit = boost_blower_speed_limit
        verdict.utilization = blower_speed / boost_blower_speed_limit
        verdict.saying("The rotor turns {value} at the limiter of {rev_limit}, within a twentieth of its limit of {limit}.")
    aim = warned_from * boost_blower_speed_limit
    return verdict.telling(pulley=Length(boost_blower_pulley * blower_speed / aim), speed=Rpm(aim / blower_drive_ratio // TEN_RPM * TEN_RPM))


WRAP = """
boost: {compressor: %s, blower_belt_wrap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The belt wraps the blower pulley by {value} only; keep {limit}.",
    fix="Move or add an idler so that the belt runs at least {limit} round the blower pulley.",
    source="common practice, no source",
    when={"boost_blower_belt_wrap": given},
    conforming=(WRAP % ("two_lobe", "150 deg", ""), WRAP % ("centrifugal", "120 deg", "")),
    nonconforming=WRAP % ("two_lobe", "105 deg", "# <-"),
)
def blower_belt_is_wrapped_enough(boost_blower_belt_wrap: Angle, *, least: Angle = q("120 deg")):
    """Too few teeth in the belt shear off; a ribbed belt slips at the very speed that needs the boost."""
    return at_least(boost_blower_belt_wrap, least)


PITCH = """
boost: {compressor: two_lobe, blower_belt_pitch: %s, blower_pulley_pitch: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The belt has a pitch of {boost_blower_belt_pitch}, the pulleys one of {boost_blower_pulley_pitch}.",
    fix="Order belt and pulleys of one pitch and tooth form; {boost_blower_pulley_pitch} where the pulleys stay.",
    source="geometry",
    when={"boost_blower_belt_pitch": given, "boost_blower_pulley_pitch": given},
    conforming=(PITCH % ("8 mm", "8 mm", ""), PITCH % ("0.5 in", "12.7 mm", "")),
    nonconforming=PITCH % ("13.9 mm", "8 mm", "# <-"),
)
def blower_belt_pitch_matches(boost_blower_belt_pitch: Length, boost_blower_pulley_pitch: Length, *, tolerance: Length = q("0.05 mm")):
    """A toothed belt on pulleys of another pitch climbs out of the first tooth it meets."""
    return matches(Length(boost_blower_belt_pitch), Length(boost_blower_pulley_pitch), tolerance=tolerance)


SNOUT = """
build: {induction: supercharged, duty: drag_race, fuel: methanol, peak_power: %s, peak_power_speed: 7000 rpm, brake_specific_fuel: 1.1 lb/hp/h}
fuel_system: {full_load_lambda: 0.75}
boost: {pressure: %s, compressor: two_lobe, cooler: {kind: none}}
crank:
  snout_keys: %s  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The snout drives a blower that takes about {value} by one key.",
    fix="Cut a second key or pin the hub, take the longest damper bolt that fits, and look at the front main: the belt asks the snout for "
        "{torque} at the power peak. Above {limit} one key is not enough.",
    source="first law for the power; 75 kW a key and 400 kW of engine power common practice, no source",
    when={"induction": ("supercharged",), "boost_compressor": BELT_DRIVEN},
    points_at=("crank_snout_keys",),
    conforming=(SNOUT % ("900 hp", "20 psi", "2", ""), SNOUT % ("450 hp", "6 psi", "1", "")),
    nonconforming=(SNOUT % ("900 hp", "20 psi", "1", "# <-"), SNOUT % ("600 hp", "6 psi", "1", "# <-")),
)
def crank_snout_drives_the_blower(
    crank_snout_keys: Count, boost_compressor: Choice, boost_drive_power: Power = None, damper_keyways: Count = None,
    peak_power: Power = None, peak_power_speed: Rpm = None, snout_load: Choice = None, *, one_key: Power = q("75 kW"),
    engine_power: Power = q("400 kW"),
):
    """A key that shears lets the hub turn on the snout, and with it go timing marks, blower and often the crank.

    What a blower takes comes from the air it moves and how hot it makes it, and goes through the key on top of everything else.
    Where it cannot be worked out, the power of the engine stands in for lobe and screw blowers. Where the spec says that
    no blower belt pulls on the snout, the blower is driven elsewhere.
    """
    if snout_load in ("none", "light_belt"):
        return not_applicable("the blower is not driven by the snout")
    keys = crank_snout_keys if damper_keyways is None else min(crank_snout_keys, damper_keyways)
    if keys >= 2:
        return passes()
    if boost_drive_power is not None:
        verdict = at_most(Power(boost_drive_power), one_key)
        if verdict.kind == "fail":
            torque = "more than a damper does" if peak_power_speed is None else Torque(boost_drive_power / peak_power_speed)
            return verdict.telling(torque=torque)
    if peak_power is not None and boost_compressor in DISPLACING:
        verdict = at_most(Power(peak_power), engine_power)
        return verdict.saying("A blower engine of {value} drives its blower by one key.",
                              "Cut a second key or pin the hub, and take the longest damper bolt that fits; above {limit} that is usual.")
    return passes() if boost_drive_power is not None else lacking("boost_drive_power")


VENT = """
build: {induction: supercharged}
boost: {compressor: two_lobe, bypass: %s, burst_panel: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The blower has neither a bypass nor a burst panel.",
    fix="Fit a bypass valve on the street, a burst panel and restraints in racing, as the rules of the class ask.",
    source="common practice, no source",
    when={"induction": ("supercharged",), "boost_compressor": DISPLACING},
    points_at=("boost_bypass", "boost_burst_panel"),
    caution="A backfire under a blower can burst it: stand clear of the side of a running engine and follow the maker's restraints.",
    conforming=(VENT % ("fitted", "none", ""), VENT % ("none", "fitted", "")),
    nonconforming=VENT % ("none", "none", "# <-"),
)
def blower_can_vent(boost_bypass: Choice = None, boost_burst_panel: Choice = None):
    """A displacing blower squeezes against a shut throttle, and a backfire under it has nowhere to go."""
    if "fitted" in (boost_bypass, boost_burst_panel):
        return passes()
    if None in (boost_bypass, boost_burst_panel):
        return lacking("boost_bypass" if boost_bypass is None else "boost_burst_panel")
    return require(False)
