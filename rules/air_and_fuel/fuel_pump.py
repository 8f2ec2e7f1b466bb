"""The fuel pump: flow at its real pressure and voltage, its kind, its wires, and what stops it."""

from buildlint.rulebook import *
from buildlint.tables.fuels import PUMPED

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
    fix="Take a pump, or a second one staged, that gives {flow_to_order} at {real_pressure}; heavier wires and a larger return come with it.",
    source="the maker's table; 20 percent reserve common practice, no source",
    caution="Test pumps with fuel only in the open air, away from sparks, with a catch tank and somebody at the switch.",
    when={"fuel_pump_flow_table": given},
    points_at=("fuel_pump_flow_table",),
    conforming=(FED % ("natural", "pump_gasoline", "420 hp", "0.47 lb/hp/h", "13.0 V", "[[40 psi, 75 gal/h], [60 psi, 65 gal/h]]", "", "0 psi"),
                FED % ("turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "13.5 V", "[[40 psi, 105 gal/h], [70 psi, 85 gal/h]]", "", "10 psi")),
    nonconforming=(FED % ("turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "13.5 V", "[[40 psi, 90 gal/h], [70 psi, 55 gal/h]]", "# <-", "15 psi"),
                   FED % ("turbocharged", "e85", "600 hp", "0.88 lb/hp/h", "13.5 V", "[[40 psi, 105 gal/h], [70 psi, 85 gal/h]]", "# <-", "10 psi"),
                   FED % ("natural", "pump_gasoline", "420 hp", "0.47 lb/hp/h", "11.0 V", "[[40 psi, 40 gal/h], [60 psi, 35 gal/h]]", "# <-", "0 psi")),
)
def fuel_pump_has_margin(
    fuel_volume_flow: Flow, fuel_pump_pressure: Pressure, fuel_pump_flow_table: Table, fuel_pump_flow: Flow = None, *, error_below: Ratio = q("1.05", "ratio"), warning_below: Ratio = q("1.20", "ratio"),
):
    """A pump loses flow to pressure and to voltage, and both meet at full power: the engine runs lean where it works hardest.

    A regulator that follows the manifold asks the same pump for the boost on top. Alcohol takes half as much again by
    volume. Demand counts a nitrous shot fed by the same pump; the free-flow figure of a catalogue is never used.
    """
    if fuel_pump_flow is None:
        return not_applicable("the pump's table does not reach the pressure, which has a rule of its own")
    unit = fuel_pump_flow_table[0][1].unit
    verdict = at_least(Ratio(fuel_pump_flow / fuel_volume_flow), error=error_below, warning=warning_below)
    return verdict.telling(real_flow=Flow(fuel_pump_flow, unit), demand=Flow(fuel_volume_flow, unit), real_pressure=Pressure(fuel_pump_pressure),
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
    fix="{advice}",
    source="common practice, no source",
    when={"fuel_pump_flow_table": given},
    points_at=("fuel_pump_flow_table",),
    conforming=(CONDITIONS % ("port_injection", "electric", "[[43 psi, 67 gal/h]]", ", rated_voltage: 13.5 V", ""),
                CONDITIONS % ("carburetor", "mechanical", "[[6 psi, 34 gal/h]]", "", "")),
    nonconforming=(CONDITIONS % ("port_injection", "electric", "[[43 psi, 67 gal/h]]", "", "# <-"),
                   CONDITIONS % ("port_injection", "electric", "[[0 psi, 90 gal/h]]", ", rated_voltage: 13.5 V", "# <-")),
)
def fuel_pump_flow_states_conditions(
    fuel_pump_flow_table: Table, fuel_pump_kind: Choice = None, fuel_pump_rated_voltage: Voltage = None, fuel_pump_pressure: Pressure = None, *,
    reach: Fraction = q("0.95", "fraction"),
):
    """A pump that gives 90 gallons into a bucket at 14 volts gives half of it at 60 psi and 12; only the second feeds an engine.

    A single point is enough where it lies at the working pressure or above; two points may be drawn on a little.
    """
    if max(row[0] for row in fuel_pump_flow_table) <= 0:
        return require(False).telling(trouble="without a pressure", advice="Ask the maker for the flow at base pressure plus boost, and one point above.")
    if fuel_pump_kind == "electric" and fuel_pump_rated_voltage is None:
        return wanting("fuel_pump_rated_voltage").at("fuel_pump_flow_table").telling(trouble="without the voltage it was taken at").saying(
            fix="Write fuel_system.pump.rated_voltage from the same sheet, usually 12 or 13.5 V.")
    highest = max(row[0] for row in fuel_pump_flow_table)
    if len(fuel_pump_flow_table) == 1 and fuel_pump_pressure is not None and highest < reach * fuel_pump_pressure:
        return require(False).telling(top=Pressure(highest), works_at=Pressure(fuel_pump_pressure)).saying(
            "The pump's flow is written at {top} only; here it works against {works_at}.",
            "Ask the maker for the flow at {works_at} and one point above.")
    return passes()


KIND = """
build: {fuel: pump_gasoline, peak_power: %s}
fuel_system: {delivery: %s, pump: {kind: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="A cam-driven fuel pump {trouble}.",
    fix="{advice}",
    source="common practice, no source",
    when={"fuel": PUMPED, "fuel_pump_kind": ("mechanical",)},
    points_at=("fuel_pump_kind",),
    conforming=(KIND % ("350 hp", "carburetor", "mechanical", ""), KIND % ("600 hp", "port_injection", "electric", "")),
    nonconforming=(KIND % ("350 hp", "port_injection", "mechanical", "# <-"), KIND % ("520 hp", "carburetor", "mechanical", "# <-")),
)
def fuel_pump_type_suits_demand(
    fuel_pump_kind: Choice, fuel_delivery: Choice = None, peak_power: Power = None, fuel_pump_margin: Ratio = None, *,
    most_power: Power = q("450 hp"), proven: Ratio = q("1.2", "ratio"),
):
    """A diaphragm on an eccentric makes seven psi and not fifty, and starves a strong engine on a long pull.

    Race diaphragm pumps and belt-driven ones feed more: where the pump's own table shows a fifth to spare, power alone
    is not held against it.
    """
    if fuel_delivery in ("port_injection", "throttle_body_injection"):
        verdict = require(False, "error" if fuel_delivery == "port_injection" else "warning")
        return verdict.telling(trouble="cannot make the pressure of fuel injection", advice="Take an electric pump at the tank, with a return.")
    if peak_power is not None and (fuel_pump_margin is None or fuel_pump_margin < proven):
        return at_most(Power(peak_power), warning=most_power).telling(
            trouble=f"is asked to feed {peak_power.text or 'the engine'}", advice="Show the pump's flow at pressure, or take an electric or belt-driven pump.")
    return passes()


WIRED = """
fuel_system: {pump: {kind: electric, wiring_loss: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The wires to the pump lose {value}; keep {limit}.",
    fix="A cross-section {times} as large, counted there and back, or a relay nearer to the pump, brings it to {limit}.",
    source="common practice, no source",
    when={"fuel_pump_wiring_loss": given, "fuel_pump_kind": ("electric",)},
    points_at=("fuel_pump_wiring_loss",),
    conforming=WIRED % ("0.33 V", ""),
    nonconforming=WIRED % ("0.83 V", "# <-"),
)
def fuel_pump_wiring_is_heavy_enough(fuel_pump_wiring_loss: Voltage, *, most: Voltage = q("0.5 V")):
    """A volt lost in thin wire is a twelfth of the pump's flow, and the wire is the cheapest part of the system."""
    return at_most(Voltage(fuel_pump_wiring_loss, "V"), most).telling(times=f"{fuel_pump_wiring_loss / most:.1f} times")


CUT = """
build: {stage: ordering, fuel: pump_gasoline}
fuel_system: {pump: {kind: electric%s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{trouble}: after a crash or with a broken line it would feed the fire.",
    fix="Wire the pump through a relay that drops out when the engine stops turning, with a crash switch, and write "
        "fuel_system.pump.cut_off: fitted.",
    source="common practice, no source; the rule book of the sanctioning body decides where there is one",
    caution="Fuel under pressure burns: test the cut-off before the first start, with an extinguisher at hand.",
    permits=False,
    when={"fuel": PUMPED, "fuel_pump_kind": ("electric",)},
    points_at=("fuel_pump_cut_off", "fuel_pump_kind"),
    conforming=CUT % (", cut_off: fitted", ""),
    nonconforming=(CUT % (", cut_off: none", "# <-"), CUT % ("", "# <-")),
)
def fuel_pump_has_safety_cutoff(fuel_pump_kind: Choice, fuel_pump_cut_off: Choice = None):
    """An electric pump runs on as long as it has current, whatever has become of the engine and the car."""
    if fuel_pump_cut_off is None:
        return wanting("fuel_pump_cut_off").at("fuel_pump_kind").telling(trouble="Nothing is written that stops the electric pump with the engine")
    return require(fuel_pump_cut_off == "fitted").telling(trouble="The electric pump has no cut-off")


DRIVE = """
build: {stage: ordering, fuel: pump_gasoline}
camshaft: {nose_bolts: 3}
fuel_system: {pump: {kind: %s%s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{trouble}.",
    fix="{advice}",
    source="common practice, no source",
    when={"fuel": PUMPED, "fuel_pump_kind": ("mechanical", "electric")},
    points_at=("fuel_pump_eccentric", "fuel_pump_opening_closed_by", "fuel_pump_kind"),
    conforming=(DRIVE % ("mechanical", ", eccentric: fitted, eccentric_bolts: 3", ""), DRIVE % ("electric", ", opening_closed_by: plate", ""),
                DRIVE % ("electric", "", "")),
    nonconforming=(DRIVE % ("mechanical", ", eccentric: none", "# <-"), DRIVE % ("mechanical", ", eccentric: fitted, eccentric_bolts: 1", "# <-"),
                   DRIVE % ("electric", ", opening_closed_by: open", "# <-"), DRIVE % ("mechanical", "", "# <-")),
)
def fuel_pump_eccentric_is_fitted(
    fuel_pump_kind: Choice, fuel_pump_eccentric: Choice = None, fuel_pump_eccentric_bolts: Count = None, camshaft_nose_bolts: Count = None,
    fuel_pump_opening_closed_by: Choice = None,
):
    """The eccentric, its pushrod and the bolt that holds them are forgotten until the cover is on; a bare opening pours oil.

    One-bolt and three-bolt cam noses take different eccentrics, and many new timing sets leave no room for any. An engine
    whose cam carries the pump's lobe itself has it fitted; where nothing is written it is only asked.
    """
    if fuel_pump_kind == "electric":
        if fuel_pump_opening_closed_by == "open":
            return require(False).at("fuel_pump_opening_closed_by").telling(
                trouble="With an electric pump the opening of the old one is left open", advice="Order a blocking plate and its gasket.")
        return passes()
    if fuel_pump_eccentric is None:
        return wanting("fuel_pump_eccentric").at("fuel_pump_kind").telling(
            trouble="A cam-driven pump is listed, and nothing is written of its eccentric and pushrod").saying(
            fix="Order eccentric and pump pushrod for this cam nose, or see that the cam has its own lobe for the pump; then write "
                "fuel_system.pump.eccentric: fitted.").within_level("warning")
    if fuel_pump_eccentric == "none":
        return require(False).telling(trouble="A cam-driven pump is listed without eccentric and pushrod: it will never move",
                                      advice="Order eccentric and pump pushrod for this cam nose.")
    if fuel_pump_eccentric_bolts is not None and camshaft_nose_bolts is not None and fuel_pump_eccentric_bolts != camshaft_nose_bolts:
        return require(False).telling(
            trouble=f"The eccentric is made for {fuel_pump_eccentric_bolts} bolts, the cam nose has {camshaft_nose_bolts}",
            advice="Order the eccentric that belongs to this cam and timing set.")
    return passes()
