"""The spark: what pressure it must jump, where its plug stands to the piston, and how fast coil and trigger can follow."""

from ..dimensions import (
    Angle, AnglePerPressure, Choice, Count, Frequency, Length, Power, Pressure, Ratio, Rpm, Speed, Temperature, Time,
    Voltage,
)
from ..mechanics import slider_crank
from ..numeric import PI, greatest, least
from ..quantities import q

# The charge on its way to the spark: polytropic exponent of fuel and air, and how warm it enters where nothing is known.
COMPRESSION_EXPONENT = 1.32
USUAL_CHARGE_TEMPERATURE = q("335 K", "temperature")

# Voltage to break a spark gap down: 4.3 kV + 136 p/T + 324 gap p/T, p in bar, T in K, gap in mm.
BREAKDOWN_BASE, BREAKDOWN_DENSITY, BREAKDOWN_GAP = q("4.3 kV"), q("136 kV"), q("324 kV")
BAR, KELVIN, MILLIMETER = q("1 bar"), q("1 K", "temperature"), q("1 mm")

USUAL_SPARK_TIME = q("1.0 ms")
CRANKING_SPEED = q("200 rpm")

# Steps colder: one for each of these on top of the engine the stock plug was for.
STEP_POWER, STEP_BOOST, STEP_SHOT = q("90 hp"), q("90 kPa"), q("100 hp")
STEP_RATIO = (10.5, 1.5)  # from this ratio, one step for each of these
STEPS_MOST = 5.0  # the heat ranges of one plug family span little more


# -- advance ----------------------------------------------------------------------------------------------------------


def advance_at_full_charge(total_advance: Angle, boost_retard: AnglePerPressure = None, boost_pressure: Pressure = None,
                           nitrous_retard: Angle = None) -> Angle:
    """Advance left at full boost and with the shot on: total less the retards that are written.

    rad. Source: definition.
    """
    advance = total_advance
    if boost_retard is not None and boost_pressure is not None:
        advance = advance - boost_retard * boost_pressure
    return advance if nitrous_retard is None else advance - nitrous_retard


# -- plug ---------------------------------------------------------------------------------------------------------------


def plug_steps_wanted(peak_power: Power, spark_plug_stock_power: Power, compression_ratio: Ratio = None,
                      boost_pressure: Pressure = None, nitrous_power: Power = None) -> Ratio:
    """Steps of heat range colder than stock: the most of added power / 90 hp, boost / 90 kPa and shot / 100 hp, and ratio.

    For the ratio (r - 10.5) / 1.5 come on top, where positive; five steps at most. Not rounded. Source: common practice, no source.
    """
    steps = greatest((peak_power - spark_plug_stock_power) / STEP_POWER, 0.0 * peak_power / STEP_POWER)
    if boost_pressure is not None:
        steps = greatest(steps, boost_pressure / STEP_BOOST)
    if nitrous_power is not None:
        steps = greatest(steps, nitrous_power / STEP_SHOT)
    if compression_ratio is not None:
        steps = steps + greatest((compression_ratio - STEP_RATIO[0]) / STEP_RATIO[1], 0.0 * compression_ratio)
    return least(steps, STEPS_MOST)


def spark_plug_piston_gap(head_roof_height_at_plug: Length, head_plug_tip_below_roof: Length, piston_below_deck: Length,
                          head_gasket_compressed_thickness: Length, piston_dome_height_at_plug: Length = None,
                          spark_plug_washer_thickness: Length = None, spark_plug_stock_washer_thickness: Length = None) -> Length:
    """Gap between plug and piston at top: roof less tip, plus deck and gasket, less the dome under the plug.

    A washer thicker than stock draws the tip back by the difference. m. Source: geometry.
    """
    gap = head_roof_height_at_plug - head_plug_tip_below_roof + piston_below_deck + head_gasket_compressed_thickness
    if piston_dome_height_at_plug is not None:
        gap = gap - piston_dome_height_at_plug
    if spark_plug_washer_thickness is not None and spark_plug_stock_washer_thickness is not None:
        gap = gap + spark_plug_washer_thickness - spark_plug_stock_washer_thickness
    return gap


def spark_volume_ratio(trapped_compression_ratio: Ratio, compression_ratio: Ratio, advance_at_full_charge: Angle,
                       crank_throw: Length, rod_length: Length) -> Ratio:
    """Volume where the intake valve closes over the volume where the spark falls.

    Slider-crank. Source: Heywood, Internal Combustion Engine Fundamentals, section 2.2.
    """
    lift = slider_crank.piston_drop(advance_at_full_charge, crank_throw, rod_length) / (2 * crank_throw)
    return trapped_compression_ratio / (1 + lift * (compression_ratio - 1))


def spark_pressure(spark_volume_ratio: Ratio, manifold_pressure_absolute: Pressure) -> Pressure:
    """Pressure in the cylinder where the spark falls, full load: manifold pressure x volume ratio^1.32.

    Pa, absolute. Source: polytropic compression, Heywood, section 9.2 (exponent about 1.3).
    """
    return manifold_pressure_absolute * spark_volume_ratio**COMPRESSION_EXPONENT


def spark_temperature(spark_volume_ratio: Ratio, induction: Choice, boost_charge_temperature: Temperature = None) -> Temperature:
    """Temperature of the charge where the spark falls: charge temperature x volume ratio^0.32.

    335 K is taken for the charge where none is written. K. Source: polytropic compression, Heywood, section 9.2.
    """
    boosted = induction != "natural" and boost_charge_temperature is not None
    start = boost_charge_temperature if boosted else USUAL_CHARGE_TEMPERATURE
    return start * spark_volume_ratio ** (COMPRESSION_EXPONENT - 1)


def spark_breakdown_voltage(spark_plug_gap: Length, spark_pressure: Pressure, spark_temperature: Temperature) -> Voltage:
    """Voltage that breaks the spark gap down: 4.3 kV + 136 p/T + 324 gap p/T (p bar, T K, gap mm).

    Clean, sharp electrodes; worn ones ask for more. V. Source: a published laboratory fit, from memory.
    """
    dense = (spark_pressure / BAR) / (spark_temperature / KELVIN)
    return BREAKDOWN_BASE + BREAKDOWN_DENSITY * dense + BREAKDOWN_GAP * dense * (spark_plug_gap / MILLIMETER)


# -- coil and trigger -----------------------------------------------------------------------------------------------------


def sparks_per_cycle(spark_source: Choice, coil_cylinders_per_coil: Count = None, cylinders: Count = None) -> Count:
    """Sparks one coil makes in two turns: a coil for each plug 1, a pair fired together 2, one coil all cylinders.

    Source: definition.
    """
    if spark_source == "coil_per_cylinder":
        return 1
    if spark_source == "wasted_spark":
        return 2
    return cylinders if coil_cylinders_per_coil is None else coil_cylinders_per_coil


def coil_time_needed(coil_dwell: Time, coil_spark_time: Time = None) -> Time:
    """Time a coil needs from one spark to the next: charging and burning; 1 ms of spark where none is written.

    s. Source: definition.
    """
    return coil_dwell + (USUAL_SPARK_TIME if coil_spark_time is None else coil_spark_time)


def coil_time_there(rev_limit: Rpm, sparks_per_cycle: Count) -> Time:
    """Time between two sparks of one coil at the rev limit: two turns over its sparks.

    rad/s -> s. Source: definition.
    """
    return 4 * PI / (rev_limit * sparks_per_cycle)


def coil_speed_limit(coil_time_needed: Time, sparks_per_cycle: Count) -> Rpm:
    """Engine speed above which the coil no longer charges in full: two turns over sparks and time needed.

    s -> rad/s. Source: definition.
    """
    return 4 * PI / (coil_time_needed * sparks_per_cycle)


def trigger_frequency(trigger_teeth: Count, rev_limit: Rpm) -> Frequency:
    """Rate of trigger teeth at the rev limit, a missing one counted: teeth x turns a second.

    rad/s -> Hz. Source: definition.
    """
    return trigger_teeth * rev_limit / (2 * PI)


def trigger_speed_cranking(trigger_diameter: Length) -> Speed:
    """Speed of the trigger teeth at 200 rpm of cranking: pi x diameter x turns a second.

    m -> m/s. Source: geometry; 200 rpm common practice.
    """
    return trigger_diameter / 2 * CRANKING_SPEED


def rotor_sweep(distributor_advance_low: Angle, distributor_advance_high: Angle) -> Angle:
    """Angle the rotor must cover past its post, in distributor degrees: half the range of advance.

    rad. Source: the distributor turns at half the crank's speed.
    """
    return (distributor_advance_high - distributor_advance_low) / 2
