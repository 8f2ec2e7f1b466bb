"""The oil: how thick it is in the bearings, and what it meets on its way."""

from ..dimensions import Choice, Flow, KinematicViscosity, Length, Pressure, Rpm, Temperature, Viscosity
from ..mechanics import oil_viscosity
from ..numeric import PI, greatest, least, sqrt
from ..quantities import q
from ..tables.oil import SHEAR_LEFT, TYPICAL_VISCOSITY, read_label

FORTY, HUNDRED, HIGH_SHEAR_AT = q("40 degC"), q("100 degC"), q("150 degC")
USUAL_SUMP = q("100 degC")  # common practice, no source
FILM_ABOVE_SUMP = q("25 K", "temperature_rise")  # common practice, no source
LEAST_SHEAR_LEFT = 0.6
JET_DISCHARGE = 0.8  # of a short round hole; common practice, no source
HOT_OIL_DENSITY = q("830 kg/m^3")  # common practice, no source


def oil_viscosity_40(oil_grade: Choice) -> KinematicViscosity:
    """Usual viscosity at 40 degC of an oil with this label; the bottle's data sheet wins.

    m2/s. Source: typical values, from memory.
    """
    return TYPICAL_VISCOSITY[oil_grade][0] if oil_grade in TYPICAL_VISCOSITY else None


def oil_viscosity_100(oil_grade: Choice) -> KinematicViscosity:
    """Usual viscosity at 100 degC of an oil with this label; the bottle's data sheet wins.

    m2/s. Source: typical values, from memory.
    """
    return TYPICAL_VISCOSITY[oil_grade][1] if oil_grade in TYPICAL_VISCOSITY else None


def oil_temperature_bearing(oil_temperature_highest: Temperature) -> Temperature:
    """Temperature of the oil film: 25 K above the hottest sump.

    K. Source: common practice, no source.
    """
    return oil_temperature_highest + FILM_ABOVE_SUMP


def oil_temperature_bearing__at_load(oil_temperature: Temperature) -> Temperature:
    """Temperature of the oil film: 25 K above the sump at load.

    K. Source: common practice, no source.
    """
    return oil_temperature + FILM_ABOVE_SUMP


def oil_temperature_bearing__usual(oil_grade: Choice) -> Temperature:
    """Temperature of the oil film where no sump temperature is written: 25 K above 100 degC.

    K. Source: common practice, no source.
    """
    return USUAL_SUMP + FILM_ABOVE_SUMP


def oil_viscosity_bearing(oil_viscosity_40: KinematicViscosity, oil_viscosity_100: KinematicViscosity,
                          oil_temperature_bearing: Temperature, oil_high_shear_viscosity: Viscosity = None,
                          oil_grade: Choice = None) -> Viscosity:
    """Viscosity between journal and shell: by the two-point equation at film temperature, less what shear takes.

    What shear leaves is the high-shear figure over the plain one at 150 degC, between 0.6 and 1; where it is not written
    0.85 for a multigrade and 1 for a straight grade. m2/s, K -> Pa*s. Source: ASTM D341; shear common practice, no source.
    """
    there = _dynamic(oil_viscosity_40, oil_viscosity_100, oil_temperature_bearing)
    if oil_high_shear_viscosity is not None:
        plain = _dynamic(oil_viscosity_40, oil_viscosity_100, HIGH_SHEAR_AT)
        return there * least(greatest(oil_high_shear_viscosity / plain, LEAST_SHEAR_LEFT), 1.0)
    label = read_label(oil_grade) if oil_grade is not None else None
    return there * SHEAR_LEFT["straight" if label is not None and label[0] is None else "multigrade"]


def _dynamic(at_40, at_100, temperature):
    return oil_viscosity.viscosity_between(at_40, FORTY, at_100, HUNDRED, temperature) * oil_viscosity.density(temperature)


def oil_crossdrilling_pressure(main_bearing_journal_diameter_largest: Length, rev_limit: Rpm) -> Pressure:
    """Pressure that oil must climb against to the middle of a cross-drilled main journal: half density x (w r)^2.

    m, rad/s -> Pa. Source: liquid that turns like a solid, any text on hydraulics.
    """
    return HOT_OIL_DENSITY / 2 * (rev_limit * main_bearing_journal_diameter_largest / 2) ** 2


def oil_jet_flow(oil_jets_diameter: Length, oil_pressure_hot: Pressure) -> Flow:
    """Oil that one piston jet takes: 0.8 x area x sqrt(2 pressure / density).

    m, Pa -> m3/s. Source: orifice equation; the 0.8 common practice, no source.
    """
    return JET_DISCHARGE * PI / 4 * oil_jets_diameter**2 * sqrt(2 * oil_pressure_hot / HOT_OIL_DENSITY)


def oil_temperature_window(oil_temperature_highest: Temperature) -> Temperature:
    """The sump temperature that is judged: the highest at load.

    K. Source: definition.
    """
    return oil_temperature_highest


def oil_temperature_window__at_load(oil_temperature: Temperature) -> Temperature:
    """The sump temperature that is judged: the one at load where no highest is written.

    K. Source: definition.
    """
    return oil_temperature


def oil_pan_gap_least(crank_pan_gap: Length, rod_pan_gap: Length = None) -> Length:
    """Least gap of throws, counterweights and rods to pan, tray and scraper.

    m. Source: definition.
    """
    return crank_pan_gap if rod_pan_gap is None else least(crank_pan_gap, rod_pan_gap)


def oil_pan_gap_least__of_rods(rod_pan_gap: Length) -> Length:
    """Least gap to pan and tray where only that of the rods is written.

    m. Source: definition.
    """
    return rod_pan_gap


def oil_pickup_to_floor(oil_pan_depth: Length, oil_pickup_depth: Length) -> Length:
    """Gap of the pickup to the floor: depth of the pan less that of the screen, both from the rail with its gasket.

    m. Source: geometry.
    """
    return oil_pan_depth - oil_pickup_depth
