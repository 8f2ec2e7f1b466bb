"""Fuel lines to and from the engine: speed, loss, and a return that stays free."""

from buildlint.mechanics.fluid_lines import ALCOHOL_VISCOSITY, GASOLINE_VISCOSITY, pipe_loss, pipe_speed
from buildlint.rulebook import *
from buildlint.tables.fuels import ALCOHOLS

FED = """
build: {duty: street, induction: natural, fuel: pump_gasoline, peak_power: 600 hp}
fuel_system:
  delivery: port_injection
  pressure: 43.5 psi
  regulator: bypass
  pump: {kind: electric, inlet_diameter: 0.44 in, rated_voltage: 13.5 V, supply_voltage: 13.5 V, flow_table: [[40 psi, 105 gal/h], [70 psi, 85 gal/h]]}
  lines:
    - {line: suction, inside_diameter: %s, length: 5 ft, right_angle_fittings: 1}%s
    - {line: pressure, inside_diameter: %s, length: 14 ft, right_angle_fittings: 3}
    - {line: return, inside_diameter: %s, length: 12 ft, right_angle_fittings: 2}
"""


def _viscosity(fuel):
    return ALCOHOL_VISCOSITY if fuel in ALCOHOLS else GASOLINE_VISCOSITY


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The {which} line is too thin for what the pump gives.",
    fix="Take a {which} line of {size_to_order:up} inside; two 45 degree fittings lose less than one square one.",
    source="continuity and Darcy-Weisbach with Blasius' friction factor; limits common practice, no source",
    when={"fuel_lines": given},
    points_at=("fuel_lines",),
    conforming=FED % ("0.560 in", "", "0.440 in", "0.440 in"),
    nonconforming=(FED % ("0.344 in", "  # <-", "0.440 in", "0.440 in"), FED % ("0.560 in", "  # <-", "0.210 in", "0.440 in"),
                   FED % ("0.560 in", "  # <-", "0.270 in", "0.440 in")),
)
def fuel_lines_are_large_enough(
    fuel_lines: Entries, fuel_density: Density, fuel: Choice, fuel_pump_flow: Flow = None, fuel_volume_flow: Flow = None,
    fuel_pump_inlet_diameter: Length = None, *, reserve: Ratio = q("1.2", "ratio"),
    speed_most={"suction": q("1.0 m/s"), "pressure": q("2.5 m/s")},
    loss_warning={"suction": q("3 kPa"), "pressure": q("35 kPa")}, loss_error={"pressure": q("70 kPa")},
):
    """Before the pump fuel boils in a line that is too thin, behind it the pressure is lost that the injectors were sized with.

    The pump's whole flow runs through both, not what the engine burns. A suction line thinner than the pump's own inlet
    is wrong whatever the flow. Where the pump's table is not written, a fifth more than the demand is counted.
    """
    if fuel_pump_flow is None:
        if fuel_volume_flow is None:
            return not_applicable("neither the pump's flow nor the demand is known")
        fuel_pump_flow = reserve * fuel_volume_flow
    found = []
    for row in fuel_lines:
        which, size = row.get("line"), row.get("inside_diameter")
        if which not in speed_most or size is None:
            continue
        unit = size.unit
        if which == "suction" and fuel_pump_inlet_diameter is not None and size < fuel_pump_inlet_diameter * (1 - 1e-6):
            found.append(at_least(Length(size, unit), error=fuel_pump_inlet_diameter).telling(
                which=which, size_to_order=Length(fuel_pump_inlet_diameter, unit)).saying(
                "The suction line is {value} inside, the pump's inlet {limit}."))
        speed = pipe_speed(fuel_pump_flow, size)
        wanted = size * max(speed / speed_most[which], 1e-9) ** 0.5
        found.append(at_most(Speed(speed, "ft/s" if unit in ("in", '"', "ft") else "m/s"), warning=speed_most[which]).telling(
            which=which, size_to_order=Length(wanted, unit)).saying(
            "Fuel runs through the " + which + " line at {value}; keep it below {limit}."))
        if row.get("length") is not None:
            loss = pipe_loss(fuel_pump_flow, size, row["length"],
                             row.get("right_angle_fittings") or 0, fuel_density, _viscosity(fuel))
            wanted = size * max(loss / loss_warning[which], 1e-9) ** (1 / 4.75)
            found.append(
                at_most(Pressure(loss), error=loss_error.get(which),
                        warning=loss_warning[which]).telling(which=which, size_to_order=Length(
                            wanted, unit)).saying("The " + which + " line loses {value}; keep it below {limit}."))
    if not found:
        return not_applicable("no suction or pressure line with its size")
    return max(found, key=_rank)


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At idle the return line holds back {value}; above {limit} the base pressure creeps up and cannot be set.",
    fix="A return of {size_to_order:up} inside does it, straight to the top of the tank.",
    source="Darcy-Weisbach with Blasius' friction factor; 20 kPa common practice, no source",
    when={"fuel_lines": given, "fuel_regulator": ("bypass",)},
    points_at=("fuel_lines",),
    conforming=FED % ("0.560 in", "", "0.440 in", "0.440 in"),
    nonconforming=FED % ("0.560 in", "  # <-", "0.440 in", "0.250 in"),
)
def fuel_return_stays_free(
    fuel_lines: Entries, fuel_density: Density, fuel: Choice, fuel_pump_flow: Flow = None, *, most: Pressure = q("20 kPa"),
):
    """At idle nearly everything the pump gives goes back, and what it cannot get rid of stands on the regulator.

    Bigger pumps for alcohol or boost are fitted to old returns, and the engine then idles rich at any setting.
    """
    if fuel_pump_flow is None:
        return not_applicable("the pump's flow is not known")
    loss, size = None, None
    for row in fuel_lines:
        if row.get("line") == "return" and row.get("inside_diameter") and row.get("length") is not None:
            here = pipe_loss(fuel_pump_flow, row["inside_diameter"], row["length"],
                             row.get("right_angle_fittings") or 0, fuel_density, _viscosity(fuel))
            if loss is None or here > loss:
                loss, size = here, row["inside_diameter"]
    if loss is None:
        return not_applicable("no return line with its size")
    return at_most(Pressure(loss), most).telling(size_to_order=Length(size * max(loss / most, 1.0) ** (1 / 4.75), size.unit))
