"""The fuel pump: flow at its real pressure and voltage, and what the figure was taken at."""

from buildlint.rulebook import *

ENGINE = """
build: {duty: street, induction: %s, fuel: %s, peak_power: %s, brake_specific_fuel: %s}
engine: {cylinders: 8}
"""


FED = ENGINE + """fuel_system:
  {delivery: port_injection, pressure: 43.5 psi, regulator_reference: manifold, filter_loss: 10 kPa,
   pump: {kind: electric, rated_voltage: 13.5 V, supply_voltage: %s, flow_table: %s}}  %s
boost: {pressure: %s}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="At {real_pressure} and the voltage it gets, the pump gives {real_flow}; full power burns {demand}: {value} of it, keep {limit}.",
    fix="Take a pump, or a second one staged, that gives {flow_to_order:up} at {real_pressure}; heavier wires and a larger return come with it.",
    source="the maker's table; 20 percent reserve common practice, no source",
    caution="Test pumps with fuel only in the open air, away from sparks, with a catch tank and somebody at the switch.",
    when={"fuel_pump_flow_table": given},
    points_at=("fuel_pump_flow_table",),
    conforming=(FED % ("natural", "pump_gasoline", "420 hp", "0.47 lb/hp/h", "13.0 V", "[[40 psi, 75 gal/h], [60 psi, 65 gal/h]]",
                       "", "0 psi"),
                FED % ("turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "13.5 V",
                       "[[40 psi, 105 gal/h], [70 psi, 85 gal/h]]", "", "10 psi")),
    nonconforming=(FED % ("turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "13.5 V",
                          "[[40 psi, 90 gal/h], [70 psi, 55 gal/h]]", "# <-", "15 psi"),
                   FED % ("turbocharged", "e85", "600 hp", "0.88 lb/hp/h", "13.5 V", "[[40 psi, 105 gal/h], [70 psi, 85 gal/h]]",
                          "# <-", "10 psi"),
                   FED % ("natural", "pump_gasoline", "420 hp", "0.47 lb/hp/h", "11.0 V",
                          "[[40 psi, 40 gal/h], [60 psi, 35 gal/h]]", "# <-", "0 psi")),
)
def fuel_pump_has_margin(
    fuel_volume_flow: Flow, fuel_pump_pressure: Pressure, fuel_pump_flow_table: Table, fuel_pump_flow: Flow = None, *,
    error_below: Ratio = q("1.05", "ratio"), warning_below: Ratio = q("1.20", "ratio"),
):
    """A pump loses flow to pressure and to voltage, and both meet at full power: the engine runs lean where it works hardest.

    A regulator that follows the manifold asks the same pump for the boost on top. Alcohol takes half as much again by
    volume. Demand counts a nitrous shot fed by the same pump; the free-flow figure of a catalogue is never used.
    """
    if fuel_pump_flow is None:
        return not_applicable("the pump's table does not reach the pressure, which has a rule of its own")
    unit = fuel_pump_flow_table[0][1].unit
    verdict = at_least(Ratio(fuel_pump_flow / fuel_volume_flow), error=error_below, warning=warning_below)
    return verdict.telling(real_flow=Flow(fuel_pump_flow, unit),
                           demand=Flow(fuel_volume_flow, unit),
                           real_pressure=Pressure(fuel_pump_pressure),
                           flow_to_order=Flow(warning_below * fuel_volume_flow, unit))


CONDITIONS = """
build: {stage: ordering}
fuel_system: {delivery: %s, pump: {kind: %s, flow_table: %s%s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The pump's flow is written {trouble}: it is a free-flow figure.",
    fix="Ask the maker for the flow at base pressure plus boost and the voltage it was taken at, and one point above.",
    source="common practice, no source",
    when={"fuel_pump_flow_table": given},
    points_at=("fuel_pump_flow_table",),
    conforming=(CONDITIONS % ("port_injection", "electric", "[[43 psi, 67 gal/h]]", ", rated_voltage: 13.5 V", ""),
                CONDITIONS % ("carburetor", "mechanical", "[[6 psi, 34 gal/h]]", "", "")),
    nonconforming=(CONDITIONS % ("port_injection", "electric", "[[43 psi, 67 gal/h]]", "", "# <-"),
                   CONDITIONS % ("port_injection", "electric", "[[0 psi, 90 gal/h]]", ", rated_voltage: 13.5 V", "# <-")),
)
def fuel_pump_flow_states_conditions(
    fuel_pump_flow_table: Table, fuel_pump_kind: Choice = None, fuel_pump_rated_voltage: Voltage = None,
    fuel_pump_pressure: Pressure = None, *,
    reach: Fraction = q("0.95", "fraction"),
):
    """A pump that gives 90 gallons into a bucket at 14 volts gives half of it at 60 psi and 12; only the second feeds an engine.

    A single point is enough where it lies at the working pressure or above; two points may be drawn on a little.
    """
    if max(row[0] for row in fuel_pump_flow_table) <= 0:
        return require(False).telling(trouble="without a pressure")
    if fuel_pump_kind == "electric" and fuel_pump_rated_voltage is None:
        return wanting("fuel_pump_rated_voltage").at("fuel_pump_flow_table").telling(
            trouble="without the voltage it was taken at").saying(
                fix="Write fuel_system.pump.rated_voltage from the same sheet, usually 12 or 13.5 V.")
    highest = max(row[0] for row in fuel_pump_flow_table)
    if len(fuel_pump_flow_table) == 1 and fuel_pump_pressure is not None and highest < reach * fuel_pump_pressure:
        return require(False).telling(top=Pressure(highest), works_at=Pressure(fuel_pump_pressure)).saying(
            "The pump's flow is written at {top} only; here it works against {works_at}.",
            "Ask the maker for the flow at {works_at} and one point above.")
    return passes()
