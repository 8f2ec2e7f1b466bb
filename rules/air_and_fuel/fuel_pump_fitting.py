"""The fuel pump as fitted: its kind, its wires, its drive from the cam, and what stops it."""

from buildlint.rulebook import *
from buildlint.tables.fuels import PUMPED

KIND = """
build: {fuel: pump_gasoline, peak_power: %s}
fuel_system: {delivery: %s, pump: {kind: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="A cam-driven fuel pump {trouble}.",
    fix="Take an electric pump at the tank, with a return; with a carburetor show the pump's flow at pressure.",
    source="common practice, no source",
    when={"fuel": PUMPED, "fuel_pump_kind": ("mechanical",)},
    points_at=("fuel_pump_kind",),
    conforming=(KIND % ("350 hp", "carburetor", "mechanical", ""), KIND % ("600 hp", "port_injection", "electric", "")),
    nonconforming=(KIND % ("350 hp", "port_injection", "mechanical", "# <-"),
                   KIND % ("520 hp", "carburetor", "mechanical", "# <-")),
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
        return verdict.telling(trouble="cannot make the pressure of fuel injection")
    if peak_power is not None and (fuel_pump_margin is None or fuel_pump_margin < proven):
        return at_most(Power(peak_power), warning=most_power).telling(
            trouble=f"is asked to feed {peak_power.text or 'the engine'}").saying(
            fix="Show the pump's flow at pressure, or take an electric or belt-driven pump.")
    return passes()


WIRED = """
fuel_system: {pump: {kind: electric, wiring_loss: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The wires to the pump lose {value}; keep {limit}.",
    fix="A cross-section {times:up} times as large, counted there and back, or a relay nearer to the pump, brings it to {limit}.",
    source="common practice, no source",
    when={"fuel_pump_wiring_loss": given, "fuel_pump_kind": ("electric",)},
    points_at=("fuel_pump_wiring_loss",),
    conforming=WIRED % ("0.33 V", ""),
    nonconforming=WIRED % ("0.83 V", "# <-"),
)
def fuel_pump_wiring_is_heavy_enough(fuel_pump_wiring_loss: Voltage, *, most: Voltage = q("0.5 V")):
    """A volt lost in thin wire is a twelfth of the pump's flow, and the wire is the cheapest part of the system."""
    return at_most(Voltage(fuel_pump_wiring_loss, "V"), most).telling(times=Ratio(fuel_pump_wiring_loss / most))


CUT = """
build: {stage: ordering, fuel: pump_gasoline}
fuel_system: {pump: {kind: electric%s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="An electric pump without a cut-off would feed the fire after a crash or with a broken line; {state}.",
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
        return wanting("fuel_pump_cut_off").at("fuel_pump_kind").telling(
            state="nothing is written that stops it with the engine")
    return require(fuel_pump_cut_off == "fitted").telling(state="here it is written as none")


DRIVE = """
build: {stage: ordering, fuel: pump_gasoline}
camshaft: {nose_bolts: 3}
fuel_system: {pump: {kind: %s%s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The pump's drive from the cam, or the cover in its place, is missing.",
    fix="Order eccentric and pump pushrod for this cam nose; for an electric pump a blocking plate.",
    source="common practice, no source",
    when={"fuel": PUMPED, "fuel_pump_kind": ("mechanical", "electric")},
    points_at=("fuel_pump_eccentric", "fuel_pump_opening_closed_by", "fuel_pump_kind"),
    conforming=(DRIVE % ("mechanical", ", eccentric: fitted, eccentric_bolts: 3", ""),
                DRIVE % ("electric", ", opening_closed_by: plate", ""),
                DRIVE % ("electric", "", "")),
    nonconforming=(DRIVE % ("mechanical", ", eccentric: none", "# <-"),
                   DRIVE % ("mechanical", ", eccentric: fitted, eccentric_bolts: 1", "# <-"),
                   DRIVE % ("electric", ", opening_closed_by: open", "# <-"), DRIVE % ("mechanical", "", "# <-")),
)
def fuel_pump_eccentric_is_fitted(
    fuel_pump_kind: Choice, fuel_pump_eccentric: Choice = None, fuel_pump_eccentric_bolts: Count = None,
    camshaft_nose_bolts: Count = None,
    fuel_pump_opening_closed_by: Choice = None,
):
    """The eccentric, its pushrod and the bolt that holds them are forgotten until the cover is on; a bare opening pours oil.

    One-bolt and three-bolt cam noses take different eccentrics, and many new timing sets leave no room for any. An engine
    whose cam carries the pump's lobe itself has it fitted; where nothing is written it is only asked.
    """
    if fuel_pump_kind == "electric":
        if fuel_pump_opening_closed_by == "open":
            return require(False).at("fuel_pump_opening_closed_by").saying("With an electric pump the opening of the old one is left open.", "Order a blocking plate and its gasket.")
        return passes()
    if fuel_pump_eccentric is None:
        return wanting("fuel_pump_eccentric").at("fuel_pump_kind").saying(
            "A cam-driven pump is listed, and nothing is written of its eccentric and pushrod.",
            "Order eccentric and pump pushrod for this cam nose, or see that the cam has its own lobe for the pump; then write "
            "fuel_system.pump.eccentric: fitted.").within_level("warning")
    if fuel_pump_eccentric == "none":
        return require(False).saying("A cam-driven pump is listed without eccentric and pushrod: it will never move.", "Order eccentric and pump pushrod for this cam nose.")
    if fuel_pump_eccentric_bolts is not None and camshaft_nose_bolts is not None and fuel_pump_eccentric_bolts != camshaft_nose_bolts:
        return require(False).saying(f"The eccentric is made for {fuel_pump_eccentric_bolts} bolts, the cam nose has {camshaft_nose_bolts}.", "Order the eccentric that belongs to this cam and timing set.")
    return passes()
