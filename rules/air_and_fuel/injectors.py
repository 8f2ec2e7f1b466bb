"""Injectors: size, rating, pressure, number and driver."""

from buildlint.rulebook import *

INJECTED = ("port_injection", "throttle_body_injection")

ENGINE = """
build: {duty: %s, induction: %s, fuel: %s, peak_power: %s, brake_specific_fuel: %s}
engine: {cylinders: 8}
"""

SIZED = ENGINE + """fuel_system: {delivery: port_injection, pressure: 43.5 psi, regulator_reference: %s, injectors: 8, injector_rated_at: 43.5 psi,
              injector_flow: %s}  %s
boost: {pressure: %s}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Five percent beyond peak power the injectors stay open {value} of the time, at {real_pressure} across them; keep {limit}.",
    fix="Take injectors of {flow_to_order:up} at their rated pressure, which leaves {aim}; more pressure only after the pump has been looked at.",
    source="Bernoulli; 80 to 85 percent common practice, no source",
    when={"fuel_injector_rated_at": given, "fuel_delivery": INJECTED},
    points_at=("fuel_injector_flow",),
    conforming=(SIZED % ("street_strip", "natural", "pump_gasoline", "420 hp", "0.47 lb/hp/h", "atmosphere", "42 lb/h", "",
                         "0 psi"),
                SIZED % ("street", "turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "manifold", "72 lb/h", "",
                         "10 psi")),
    nonconforming=(SIZED % ("street_strip", "natural", "pump_gasoline", "500 hp", "0.48 lb/hp/h", "atmosphere", "36 lb/h", "# <-",
                            "0 psi"),
                   SIZED % ("street", "turbocharged", "pump_gasoline", "600 hp", "0.62 lb/hp/h", "atmosphere", "55 lb/h", "# <-",
                            "11.6 psi"),
                   SIZED % ("street_strip", "natural", "e85", "500 hp", "0.70 lb/hp/h", "atmosphere", "42 lb/h", "# <-", "0 psi"),
                   SIZED % ("street_strip", "natural", "pump_gasoline", "500 hp", "0.48 lb/hp/h", "atmosphere", "38.5 lb/h",
                            "# <-", "0 psi")),
)
def injector_duty_leaves_reserve(
    injector_duty: Fraction, fuel_injector_flow: MassFlow, fuel_injector_pressure: Pressure,
    fuel_injector_duty_limit: Fraction = None, *,
    note_above: Fraction = q("0.80", "fraction"), warning_above: Fraction = q("0.85", "fraction"),
    error_above: Fraction = q("0.95", "fraction"),
):
    """An injector that hardly shuts no longer meters, and near 95 percent it stays open and the last cylinders run lean.

    Counted with the real pressure across the injector: a regulator that does not follow the manifold loses the boost. A
    duty limit written in the spec takes the place of the warning line. Staged or dry-fed nitrous fuel counts in.
    """
    warning = min(fuel_injector_duty_limit, error_above) if fuel_injector_duty_limit is not None else warning_above
    verdict = at_most(Fraction(injector_duty), error=error_above, warning=warning, note=min(note_above, warning))
    aim = min(note_above, warning)
    return verdict.telling(flow_to_order=MassFlow(fuel_injector_flow * injector_duty / aim, fuel_injector_flow.unit),
                           aim=f"{aim:.0%}",
                           real_pressure=Pressure(fuel_injector_pressure))


RATED = """
build: {stage: ordering}
fuel_system: {delivery: port_injection, injector_flow: 42 lb/h%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="An injector flow of {fuel_injector_flow} is written without {missing}; 40, 43.5 and 58 psi are all in use.",
    fix="Write fuel_system.injector_rated_at, and injector_rated_fluid, from the maker's sheet.",
    source="common practice, no source",
    when={"fuel_injector_flow": given},
    points_at=("fuel_injector_flow",),
    conforming=RATED % (", injector_rated_at: 43.5 psi, injector_rated_fluid: heptane", ""),
    nonconforming=(RATED % ("", "# <-"), RATED % (", injector_rated_fluid: gasoline", "# <-")),
)
def injector_states_rated_pressure(
    fuel_injector_flow: MassFlow, fuel_injector_rated_at: Pressure = None, fuel_injector_rated_fluid: Choice = None,
):
    """The same injector is a 42 at three bar and a 48 at four: without its pressure the number sizes nothing.

    Ratings are taken on thin test fluids; on gasoline the same injector gives 4 percent more. The fluid is asked for in
    the same breath but its lack alone is no fault.
    """
    if fuel_injector_rated_at is not None:
        return passes()
    lacks = "its pressure" if fuel_injector_rated_fluid else "its pressure and fluid"
    return wanting("fuel_injector_rated_at").at("fuel_injector_flow").telling(missing=lacks)


OPENS = """
build: {induction: natural}
fuel_system: {delivery: port_injection, injector_rated_at: 43.5 psi, pressure: %s, injector_flow: 42 lb/h}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{value} stands across injectors rated at {fuel_injector_rated_at}; above {limit} {effect}.",
    fix="Keep the base pressure near {fuel_injector_rated_at} and take a larger injector, or ask the maker for the highest pressure at low voltage.",
    source="common practice, no source",
    when={"fuel_injector_rated_at": given, "fuel_delivery": INJECTED},
    points_at=("fuel_pressure",),
    conforming=(OPENS % ("43.5 psi", ""), OPENS % ("58 psi", "")),
    nonconforming=(OPENS % ("75 psi", "# <-"), OPENS % ("66 psi", "# <-")),
)
def injector_opens_at_pressure(
    fuel_injector_pressure: Pressure, fuel_injector_rated_at: Pressure, *, times: Ratio = q("1.6", "ratio"),
    note_above: Pressure = q("450 kPa"),
):
    """The magnet lifts the needle against the fuel: with too much pressure and a sagging battery it no longer does."""
    verdict = at_most(Pressure(fuel_injector_pressure), warning=times * fuel_injector_rated_at, note=note_above)
    return verdict.telling(effect="the needle may not lift when the voltage sags" if verdict.level == "warning" else
                           "pump and injectors work hard")


COUNT = """
engine: {cylinders: 8}
fuel_system: {delivery: port_injection, injectors: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{fuel_injectors} injectors feed the ports of {cylinders} cylinders.",
    fix="Port injection takes one for each cylinder, or two where they are staged: {cylinders} or twice as many.",
    source="common practice, no source",
    when={"fuel_injectors": given, "fuel_delivery": ("port_injection",)},
    points_at=("fuel_injectors",),
    conforming=(COUNT % (8, ""), COUNT % (16, "")),
    nonconforming=(COUNT % (6, "# <-"), COUNT % (10, "# <-")),
)
def injector_count_suits_cylinders(fuel_injectors: Count, cylinders: Count):
    """Every port has its own, or two of them; another number was copied from another engine or ordered short."""
    return one_of(fuel_injectors, (cylinders, 2 * cylinders))


DRIVEN = """
fuel_system: {delivery: port_injection, injectors: 8}
"""


@rule(
    scope="build",
    level="reminder",
    due="ordering",
    says="Injectors and the controller's drivers must be of one kind: high-impedance (12 ohm and more) on saturated drivers, low-impedance "
         "(1 to 4 ohm) on peak-and-hold or with a resistor pack.",
    fix="Measure or look up the ohms, compare with the controller's sheet, count the channels, then sign this check.",
    source="common practice, no source",
    when={"fuel_delivery": INJECTED},
    points_at=("fuel_injectors", "fuel_delivery"),
    conforming=DRIVEN,
)
def injector_driver_matches_impedance(fuel_delivery: Choice):
    """Low-impedance injectors on the wrong driver burn it out in minutes; high-impedance ones on the other never open in time."""
    return review()


IDLE = """
build: {fuel: %s, induction: natural}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
fuel_system: {delivery: port_injection, pressure: 43.5 psi, injection: %s, injectors: 8, injector_rated_at: 43.5 psi, injector_flow: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="At warm idle these injectors open for about {value}; below {limit} they meter unevenly.",
    fix="Injectors of at most {flow_to_stay_under:down} idle well with this engine; else two staged sets, sequential injection, or a map of the "
        "injector's short pulses.",
    source="common practice, no source; idle fuel estimated from 1.15 bar mean pressure at 25 percent efficiency",
    when={"fuel_injector_rated_at": given, "fuel_delivery": ("port_injection",)},
    points_at=("fuel_injector_flow",),
    conforming=(IDLE % ("pump_gasoline", "sequential", "42 lb/h", ""), IDLE % ("e85", "sequential", "80 lb/h", "")),
    nonconforming=(IDLE % ("pump_gasoline", "sequential", "160 lb/h", "# <-"),
                   IDLE % ("pump_gasoline", "batch", "80 lb/h", "# <-")),
)
def injector_idle_pulse_is_long(injector_idle_pulse: Time, fuel_injector_flow: MassFlow, *, least: Time = q("0.45 ms")):
    """Big injectors for big power leave so little to do at idle that each opens for less time than it needs to settle.

    The estimate leaves out the opening delay of about a millisecond that the controller adds; with it, 0.45 ms makes
    the 1.3 to 1.5 ms that builders quote. Alcohol idles better on a big injector, since it burns more.
    """
    return at_least(Time(injector_idle_pulse, "ms"), note=least).telling(
        flow_to_stay_under=MassFlow(fuel_injector_flow * injector_idle_pulse / least, fuel_injector_flow.unit))
