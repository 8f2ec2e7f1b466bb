"""Headers and pipes: gas speed, lengths and steps by old practice, and room round the tubes."""

from math import pi

from buildlint.rulebook import *

RACING = ("drag_race", "road_race", "oval_race")

PRIMARY = """
build: {induction: natural, peak_torque_speed: 4800 rpm}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
exhaust_system:
  primary: {outside_diameter: %s, wall: 0.065 in}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="At the torque peak the gas runs {value} in the primaries; {low:up} to {high:down} is usual.",
    fix="Tubes of about {tube} outside bring {aim}; an eighth of an inch moves the torque peak by some 500 rpm.",
    source="area in square inches = cubic inches x rpm / 88 200, published trade rule",
    when={"primary_outside_diameter": given},
    points_at=("primary_outside_diameter",),
    conforming=(PRIMARY % ("1-7/8 in", ""), PRIMARY % ("1-3/4 in", "")),
    nonconforming=(PRIMARY % ("1-1/2 in", "# <-"), PRIMARY % ("2-1/4 in", "# <-")),
)
def header_primary_suits_torque_speed(
    primary_gas_speed: Speed, primary_area: Area, primary_wall: Length, exhaust_charge_factor: Ratio = None, *, low: Speed = q("200 ft/s", "speed"),
    high: Speed = q("290 ft/s", "speed"), aim: Speed = q("245 ft/s", "speed"),
    charge_known_to: Ratio = q("1.7", "ratio"),
):
    """Small tubes keep the gas fast and the torque low in the range; large ones ask for speed before they give anything.

    The mean speed over the exhaust stroke at the torque peak, 245 ft/s by the old rule. Boosted engines are sized for 0.85 of
    the added charge, since their back pressure packs the gas closer; where that adds two thirds the old rule says
    nothing any more. A guide for choosing between two sizes, not a fault.
    """
    if exhaust_charge_factor is not None and exhaust_charge_factor > charge_known_to:
        return not_applicable("the old rule does not reach so much boost")
    unit = _gas_unit(primary_wall)
    tube = 2 * (primary_area * primary_gas_speed / aim / pi) ** 0.5 + 2 * primary_wall
    verdict = within(Speed(primary_gas_speed, unit), low, high)
    return verdict.telling(tube=Length(tube, primary_wall.unit), low=Speed(low, unit), high=Speed(high, unit), aim=Speed(aim, unit))


def _gas_unit(length):
    """Gas speeds are told in feet a second where lengths are written in inches."""
    return "ft/s" if length.unit in ("in", '"') else "m/s"


PORT = """
exhaust:
  port: {exit_area: %s, width: 1.40 in, height: 1.45 in}
exhaust_system:
  primary: {outside_diameter: 1-3/4 in, wall: 0.065 in, flange_width: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="{sentence}",
    fix="Take headers with at least {limit} here, or leave the port as it was; a port larger than its tube is a step the gas runs into.",
    source="common practice, no source",
    when={"primary_outside_diameter": given},
    points_at=("primary_outside_diameter",),
    conforming=(PORT % ("1.95 in^2", "1.60 in", ""), PORT % ("2.05 in^2", "1.40 in", "")),
    nonconforming=(PORT % ("2.40 in^2", "1.60 in", "# <-"), PORT % ("1.95 in^2", "1.25 in", "# <-")),
)
def primary_clears_the_port(
    side_name: Choice, primary_area: Area = None, port_exit_area: Area = None, port_width: Length = None, port_height: Length = None,
    primary_flange_width: Length = None, primary_flange_height: Length = None,
):
    """A flange smaller than the port is a wall in the stream; a step outward holds back what comes the wrong way.

    The port's exit is best 0.8 to 1.0 of the tube's area. Ports that were opened up are the usual reason: the header flange
    stays as it was bought.
    """
    if side_name != "exhaust":
        return not_applicable("the intake has no headers")
    looked = False
    for word, port, flange, what in (("primary_flange_width", port_width, primary_flange_width, "wide"),
                                     ("primary_flange_height", port_height, primary_flange_height, "high")):
        if None not in (port, flange):
            looked = True
            verdict = at_least(flange, port)
            if verdict.kind == "fail":
                return verdict.at(word).saying(f"The opening of the header flange is {{value}} {what}, the exhaust port {{limit}}.")
    if None not in (primary_area, port_exit_area):
        verdict = at_least(Area(primary_area, port_exit_area.unit), port_exit_area)
        return verdict.saying("The primaries have {value} inside, the exhaust ports end with {limit}.")
    return passes() if looked else lacking("port_exit_area")


LENGTH = """
build: {duty: %s, peak_torque_speed: 4800 rpm, peak_power_speed: 6200 rpm}
exhaust:
  lobe: {opens_before_bottom_advertised: 72 deg}
exhaust_system:
  primary: {length: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The primaries are {primary_length} long; old practice for {primary_tuning_speed} and this cam is {primary_length_wanted}, and they are {value} off.",
    fix="Take tubes nearer {primary_length_wanted}, or tune with the collector's length first, which costs less.",
    source="Bell, Performance Tuning in Theory and Practice: Four-Strokes (from memory)",
    when={"primary_length": given},
    points_at=("primary_length",),
    conforming=(LENGTH % ("drag_race", "34 in", ""), LENGTH % ("street", "26 in", "")),
    nonconforming=(LENGTH % ("road_race", "26 in", "# <-"), LENGTH % ("street", "18 in", "# <-")),
)
def primary_length_suits_tuning(
    primary_length: Length, primary_length_wanted: Length, primary_tuning_speed: Rpm, duty: Choice = None, *,
    racing: Fraction = q("0.20", "fraction"), street: Fraction = q("0.40", "fraction"),
):
    """Long primaries pull in the middle, short ones at the top; the formula is a place to begin, not physics.

    It gives the length for the speed midway between torque and power peak. On the street the car decides where tubes can go,
    so only a large difference is told there.
    """
    share = abs(primary_length - primary_length_wanted) / primary_length_wanted
    return at_most(Fraction(share), racing if duty in RACING else street)


COLLECTOR = """
exhaust_system:
  primary: {outside_diameter: 1-3/4 in}
  collector: {diameter: %s, length: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The collector measures {collector_diameter}, {value} times the primaries; {low:up} to {high:down} times is usual.",
    fix="Take one of about {wanted}.",
    source="common practice, no source",
    when={"collector_diameter": given, "primary_outside_diameter": given},
    points_at=("collector_diameter",),
    conforming=(COLLECTOR % ("3.0 in", "14 in", ""), COLLECTOR % ("3.5 in", "12 in", "")),
    nonconforming=(COLLECTOR % ("4.0 in", "14 in", "# <-"), COLLECTOR % ("3.0 in", "4 in", "# <-")),
)
def collector_suits_primaries(
    collector_ratio: Ratio, primary_outside_diameter: Length, collector_length: Length = None, *, low: Ratio = q("1.55", "ratio"),
    high: Ratio = q("2.05", "ratio"), middle: Ratio = q("1.75", "ratio"), shortest: Length = q("250 mm"), longest: Length = q("500 mm"),
):
    """The collector joins four tubes into one; too wide it is a muffler, too narrow a throttle, too short it does nothing."""
    verdict = within(Ratio(collector_ratio), low, high)
    if verdict.kind == "fail" or collector_length is None:
        return verdict.telling(wanted=Length(middle * primary_outside_diameter, primary_outside_diameter.unit))
    verdict = within(collector_length, shortest, longest).at("collector_length")
    return verdict.telling(shortest=Length(shortest), longest=Length(longest)).saying(
        "The collector is {value} long; {shortest:up} to {longest:down} is usual.", "Lengthen or cut the collector before touching the primaries.")


PIPES = """
build: {duty: %s, induction: natural, fuel: pump_gasoline, peak_power: 500 hp, peak_power_speed: 6200 rpm, brake_specific_fuel: 0.46 lb/hp/h}
fuel_system: {full_load_lambda: 0.88}
exhaust_system:
  exhaust_pipe: {count: %s, inside_diameter: 2.37 in}%s  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="At the power peak the gas runs {value} in the pipes; {limit} is where it begins to cost power.",
    fix="Pipes of {needed:up} inside, as many as now, bring {limit}.",
    source="common practice, no source",
    points_at=("exhaust_pipe_inside_diameter",),
    conforming=(PIPES % ("street", 3, "", ""), PIPES % ("street", 2, "\n  back_pressure: 2 psi", "")),
    nonconforming=(PIPES % ("street", 2, "", "# <-"), PIPES % ("drag_race", 2, "\n  back_pressure: 3 psi", "# <-")),
)
def pipes_carry_the_gas(
    exhaust_pipe_inside_diameter: Length = None, exhaust_pipe_speed: Speed = None, back_pressure: Pressure = None, duty: Choice = None, *,
    most_speed: Speed = q("105 m/s", "speed"), most_racing: Pressure = q("10 kPa"), most_muffled: Pressure = q("20 kPa"),
):
    """What the cam and the headers gained, a small pipe takes back. A back pressure that was measured wins over the estimate.

    The gas is counted at 450 degC; mufflers are worth more than pipes, and a crossover helps both.
    """
    if back_pressure is not None:
        verdict = at_most(back_pressure, most_racing if duty in RACING else most_muffled).at("back_pressure")
        return verdict.saying("The exhaust holds back {value} at full load; keep {limit}.",
                              "Look at mufflers and bends first, then at the pipes.")
    if exhaust_pipe_inside_diameter is None:
        return not_applicable("neither pipes nor back pressure are written")
    if exhaust_pipe_speed is None:
        return lacking("exhaust_pipe_speed")
    unit = _gas_unit(exhaust_pipe_inside_diameter)
    verdict = at_most(Speed(exhaust_pipe_speed, unit), Speed(most_speed, unit))
    needed = exhaust_pipe_inside_diameter * (exhaust_pipe_speed / most_speed) ** 0.5
    return verdict.telling(needed=Length(needed, exhaust_pipe_inside_diameter.unit))


@rule(
    scope="build",
    level="reminder",
    due="mock_up",
    says="With the headers on, every plug must come out, boots and starter stay {gap} from the tubes, and steering, clutch linkage, dipstick and brake lines clear them.",
    fix="Try every plug with its socket, turn the steering lock to lock, sleeve what is near, and sign.",
    source="common practice, no source",
    when={"primary_outside_diameter": given},
    conforming="exhaust_system: {primary: {outside_diameter: 1-3/4 in}}",
)
def header_clears_plugs_and_starter(primary_outside_diameter: Length, *, gap: Length = q("25 mm")):
    """A header chosen for power whose third plug comes out only with the engine is a common order."""
    return review().telling(gap=Length(gap))


NEAREST = """
exhaust_system: {header_nearest_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="The header comes within {value} of the starter, a line or the steering; keep {limit}.",
    fix="Sleeve or reroute what is near, fit a heat shield between, or dent the tube where its maker allows it; then try it with the engine "
        "rocked on its mounts.",
    source="25 mm to starter and brake line: common practice, no source",
    when={"header_nearest_gap": given},
    caution="Fuel and brake lines near a header boil or burn: move the line, do not only wrap it.",
    conforming=(NEAREST % ("1.0 in", ""), NEAREST % ("25 mm", "")),
    nonconforming=(NEAREST % ("0.3 in", "# <-"), NEAREST % ("0.75 in", "# <-")),
)
def header_keeps_its_distance(header_nearest_gap: Length, *, note_below: Length = q("25 mm"), warning_below: Length = q("1/2 in")):
    """A tube at red heat cooks starter windings, boots and brake fluid long before it touches them.

    With a shield between, half an inch is lived with; without one an inch is little enough.
    """
    return at_least(header_nearest_gap, warning=warning_below, note=note_below)
