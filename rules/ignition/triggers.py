"""The crank trigger: strong, fast and steady enough, and its offset written down."""

from buildlint.rulebook import *

COIL = """
ignition: {trigger: {sensor: %s, diameter: %s, teeth: 60}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At 200 rpm of cranking the teeth pass an inductive sensor at {value}; below {limit} its voltage is too small to be read.",
    fix="Take a wheel of at least {diameter_to_reach:up}, a closer gap, or a Hall sensor.",
    source="0.8 m/s common practice, no source",
    when={"trigger_diameter": given, "trigger_sensor": ("variable_reluctance",)},
    points_at=("trigger_diameter",),
    conforming=(COIL % ("variable_reluctance", "6.3 in", ""), COIL % ("hall", "2.5 in", "")),
    nonconforming=COIL % ("variable_reluctance", "2.5 in", "# <-"),
)
def trigger_signal_is_strong_enough(trigger_speed_cranking: Speed, trigger_diameter: Length, *, least: Speed = q("0.8 m/s")):
    """An inductive sensor makes voltage from speed: on a small wheel the engine runs once it runs, but never starts."""
    unit = "m/s" if trigger_diameter.unit in ("mm", "cm", "m") else "ft/s"
    return at_least(Speed(trigger_speed_cranking, unit), least).telling(
        diameter_to_reach=Length(trigger_diameter * least / trigger_speed_cranking, trigger_diameter.unit))


RATE = """
build: {rev_limit: %s}
ignition: {trigger: {teeth: 60, missing: 2, frequency_limit: 10 kHz}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At the rev limit the teeth come at {value}; the controller follows up to {limit}.",
    fix="A wheel of {teeth_to_order} teeth or less stays below it.",
    source="the controller maker's figure",
    when={"trigger_frequency_limit": given},
    points_at=("trigger_frequency_limit", "trigger_teeth"),
    conforming=RATE % ("8000 rpm", ""),
    nonconforming=RATE % ("10500 rpm", "# <-"),
)
def trigger_frequency_suits_controller(trigger_frequency: Frequency, trigger_frequency_limit: Frequency, trigger_teeth: Count):
    """Teeth that come faster than the controller counts are lost, and with them the timing, just where the engine is fastest."""
    teeth = int(trigger_teeth * trigger_frequency_limit / trigger_frequency + 1e-9)
    return at_most(Frequency(trigger_frequency, "Hz"), trigger_frequency_limit).telling(teeth_to_order=f"{teeth}")


NEAR = """
ignition: {trigger: {sensor: hall, teeth: 60, air_gap: %s, runout: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The trigger gap is {value}; {limit} is the {end}.",
    fix="Set the gap to {low:up} to {high:down}, or the sensor maker's own figure.",
    source="inductive 0.5 to 1.0, Hall 0.8 to 1.5 mm, common practice, no source",
    when={"trigger_air_gap": given},
    points_at=("trigger_air_gap", "trigger_runout"),
    conforming=NEAR % ("0.040 in", "0.002 in", ""),
    nonconforming=(NEAR % ("0.075 in", "0.002 in", "# <-"), NEAR % ("0.015 in", "0.002 in", "# <-"),
                   NEAR % ("0.040 in", "0.008 in", "# <-")),
)
def trigger_gap_suits_sensor(
    trigger_air_gap: Length, trigger_runout: Length = None, *, low: Length = q("0.5 mm"), high: Length = q("1.5 mm"),
    runout_most: Length = q("0.13 mm"),
):
    """Too wide a gap loses teeth, too close a one is struck when the crank flexes; a wheel out of true does both in one turn."""
    unit = trigger_air_gap.unit
    verdict = within(Length(trigger_air_gap, unit), low, high)
    if verdict.kind == "pass" and trigger_runout is not None and trigger_runout > runout_most * (1 + 1e-9):
        return at_most(Length(trigger_runout, unit),
                       runout_most).at("trigger_runout").saying(
            "The trigger wheel runs out by {value}; keep {limit}.", "Look for dirt or a burr under the wheel, then have it trued; set the gap again.")
    return verdict.telling(end="least" if trigger_air_gap < low else "most")


SEAT = """
damper: {kind: %s}
ignition: {trigger: {teeth: 36, mounted_on: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The trigger wheel sits on the ring of a {damper_kind} damper, which turns against the hub and creeps with age.",
    fix="Mount the wheel on the damper's hub, the crank or the flywheel.",
    source="common practice, no source",
    when={"trigger_mounted_on": given},
    points_at=("trigger_mounted_on",),
    conforming=(SEAT % ("bonded_rubber", "damper_hub", ""), SEAT % ("solid_hub", "damper_ring", "")),
    nonconforming=SEAT % ("bonded_rubber", "damper_ring", "# <-"),
)
def trigger_wheel_sits_on_hub(trigger_mounted_on: Choice, damper_kind: Choice = None):
    """The ring's whole purpose is to swing on its rubber; the timing swings with it, and when the rubber slips it stays wrong."""
    if trigger_mounted_on != "damper_ring" or damper_kind == "solid_hub":
        return passes()
    return require(False).telling(**({} if damper_kind else {"damper_kind": "rubber"}))


NOTED = """
ignition: {trigger: {teeth: 60, missing: 2}}
"""


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="The trigger's offset must be seen with a timing light at two speeds and written down.",
    fix="Lock the timing at one figure, read the light at idle and at 3000 rpm: a reading that drifts is sensor delay; then sign this check.",
    source="common practice, no source",
    caution="A timing light is read beside belts and fan: no loose sleeves, leads held clear, somebody at the switch.",
    when={"trigger_teeth": given},
    points_at=("trigger_teeth",),
    conforming=NOTED,
)
def trigger_offset_is_recorded(trigger_teeth: Count):
    """What the controller calls ten degrees is ten degrees only after somebody has looked."""
    return review()
