"""Air: what stands outside, what the engine takes at its power peak, and what valves, ports and throttles make of it.

Power claims are made at standard air, so the air of a claim is counted at 25 degC and 101.325 kPa; altitude counts
where a pressure is asked for. What a compressor does to the charge stands in ``boost``.
"""

from ..dimensions import (
    Angle, Area, Choice, Count, Flow, Fraction, FuelPerWork, Length, MassFlow, Power, Pressure, Ratio, Rpm, Speed, Table,
    Temperature, Volume, YesNo,
)
from ..mechanics import atmosphere, head_flow, slider_crank
from ..numeric import PI, greatest, sqrt, where
from ..quantities import q
from ..tables.air_claims import FILLING_FROM, HEAD_FLOW_SHARE, MACH_INDEX, PORT_SPEED, VOLUMETRIC_EFFICIENCY, row_of
from ..tables.duties import BREATHING
from ..tables.fuels import ALCOHOLS

# Compressor efficiency, where a boosted engine names none. Common practice, no source.
USUAL_COMPRESSOR_EFFICIENCY = 0.65
COMPRESSION_POWER = 0.2857  # (1.4 - 1) / 1.4

# Mean flow coefficient of an intake valve over its open time, on the area of its head, where no bench data are known.
USUAL_FLOW_COEFFICIENT = {"flat": 0.32, "roller": 0.35, "race": 0.39}

# Power a head's intake flow is good for, power per volume flow: 0.257 hp per ft^3/min at 28 in of water.
POWER_PER_FLOW = q("406.1 kPa")

RESONATOR_CONSTANT = 2.1  # engine speed of a tuned runner below the resonance of cylinder and runner
CONSTANT_PRODUCT = q("84000 rpm", "rpm")  # times an inch of whole runner length
CONSTANT_PRODUCT_LENGTH = q("1 in")
ROUND_TRIPS = 6.0  # of the wave while the valve is shut, mean of the strong ones from 4 to 8

THROTTLE_COEFFICIENT = 0.85


# -- outside --------------------------------------------------------------------------------------------------


def air_pressure(ambient_pressure: Pressure) -> Pressure:
    """Pressure of the outside air, absolute, as written.

    Source: measurement.
    """
    return ambient_pressure


def air_pressure__at_altitude(altitude_lowest: Length) -> Pressure:
    """Pressure of the outside air at the lowest place of use: 101.325 kPa (1 - z / 44331 m)^5.256.

    Pa, absolute. Source: ISO 2533 standard atmosphere.
    """
    return atmosphere.pressure_at(altitude_lowest)


def air_pressure__at_sea_level() -> Pressure:
    """Pressure of the outside air at sea level, where no altitude is written: the hard case for knock.

    Pa, absolute. Source: ISO 2533 standard atmosphere.
    """
    return atmosphere.STANDARD_PRESSURE


def air_pressure_lowest(altitude_highest: Length) -> Pressure:
    """Pressure of the outside air at the highest place of use.

    Pa, absolute. Source: ISO 2533 standard atmosphere.
    """
    return atmosphere.pressure_at(altitude_highest)


def air_pressure_lowest__same(air_pressure: Pressure) -> Pressure:
    """Pressure of the outside air at the highest place of use, where only one place is written.

    Source: as air_pressure.
    """
    return air_pressure


def manifold_pressure_absolute(induction: Choice, air_pressure: Pressure, boost_pressure: Pressure = None) -> Pressure:
    """Pressure in the manifold at full throttle, absolute: outside air, plus boost where there is a compressor.

    Pa. Source: definition of gauge pressure.
    """
    if induction == "natural":
        return air_pressure
    return None if boost_pressure is None else air_pressure + boost_pressure


def charge_density_factor(induction: Choice, density_ratio: Ratio = None) -> Ratio:
    """Density of the charge in the manifold over that of the outside air: 1 without a compressor.

    Source: definition.
    """
    return 1.0 if induction == "natural" else density_ratio


def charge_density_factor__assumed(manifold_pressure_absolute: Pressure, air_pressure: Pressure) -> Ratio:
    """Density of a boosted charge over the outside air's, if nothing is known of the compressor: 65 percent efficient.

    Pressure ratio over 1 + (ratio^0.2857 - 1) / 0.65; uncooled. Source: Heywood, section 6.8; the 0.65 common practice.
    """
    ratio = manifold_pressure_absolute / air_pressure
    return ratio / (1 + (ratio**COMPRESSION_POWER - 1) / USUAL_COMPRESSOR_EFFICIENCY)


# -- what the engine takes --------------------------------------------------------------------------------------


def air_mass_flow(volumetric_efficiency: Fraction, charge_density_factor: Ratio, displacement: Volume,
                  peak_power_speed: Rpm) -> MassFlow:
    """Air taken at the power peak: volumetric efficiency x density x displacement x speed / 4 pi.

    kg/s; standard air, times the density factor of a boosted charge. Source: Heywood, section 2.10.
    """
    return (volumetric_efficiency * charge_density_factor * atmosphere.STANDARD_DENSITY * displacement
            * peak_power_speed / (4 * PI))


def air_mass_flow__of_power(air_mass_flow_of_claim: MassFlow) -> MassFlow:
    """Air taken at the power peak, where no volumetric efficiency is written: what the claimed power burns.

    kg/s. Source: as air_mass_flow_of_claim.
    """
    return air_mass_flow_of_claim


def engine_power(peak_power: Power, nitrous_power: Power = None, nitrous_counted_in_peak_power: YesNo = None) -> Power:
    """Peak power that the engine makes of outside air: the claim, less the shot where the claim is with it.

    W. Source: definition.
    """
    return peak_power - nitrous_power if nitrous_counted_in_peak_power and nitrous_power is not None else peak_power


def air_mass_flow_of_claim(engine_power: Power, fuel_per_work: FuelPerWork, mixture_lambda: Ratio,
                           fuel_stoichiometric_ratio: Ratio) -> MassFlow:
    """Air that the claimed power burns: power x specific consumption x lambda x stoichiometric ratio.

    W, kg/J -> kg/s. Source: Heywood, sections 2.8 to 2.10.
    """
    return engine_power * fuel_per_work * mixture_lambda * fuel_stoichiometric_ratio


def volumetric_efficiency_of_claim(air_mass_flow_of_claim: MassFlow, charge_density_factor: Ratio, displacement: Volume,
                                   peak_power_speed: Rpm) -> Fraction:
    """Volumetric efficiency that the claimed power asks for: its air over density x displacement x speed / 4 pi.

    On the density in the manifold. Source: Heywood, section 2.10.
    """
    density = charge_density_factor * atmosphere.STANDARD_DENSITY
    return air_mass_flow_of_claim * 4 * PI / (density * displacement * peak_power_speed)


def air_volume_flow(air_mass_flow: MassFlow) -> Flow:
    """The air taken at the power peak as a volume of outside air at standard density.

    kg/s -> m3/s. Source: definition.
    """
    return air_mass_flow / atmosphere.STANDARD_DENSITY


# -- valves and ports ---------------------------------------------------------------------------------------------


def inlet_flow_at_standard(intake_port_flow: Flow, head_flow_bench_depression: Pressure) -> Flow:
    """Best intake flow as a bench would read it at 28 inches of water.

    m3/s, Pa -> m3/s. Source: Bernoulli.
    """
    return head_flow.at_usual_depression(intake_port_flow, head_flow_bench_depression)


def inlet_flow_at_standard__of_table(intake_port_flow_table: Table, head_flow_bench_depression: Pressure,
                                     intake_valve_lift: Length = None) -> Flow:
    """Best intake flow of the flow table up to the valve's lift, as a bench would read it at 28 inches of water.

    m3/s. Source: Bernoulli.
    """
    rows = sorted((float(lift), float(flow)) for lift, flow in intake_port_flow_table)
    best = rows[0][1]
    for lift, flow in rows:
        best = greatest(best, flow if intake_valve_lift is None else where(lift <= 1.02 * intake_valve_lift, flow, best))
    return head_flow.at_usual_depression(best, head_flow_bench_depression)


def inlet_flow_coefficient(intake_port_discharge_coefficient: Ratio) -> Ratio:
    """Mean flow coefficient of the intake valve over its open time, as written.

    Source: measurement.
    """
    return intake_port_discharge_coefficient


def inlet_flow_coefficient__of_table(intake_port_flow_table: Table, head_flow_bench_depression: Pressure,
                                     intake_valve_head_diameter: Length, intake_valve_lift: Length, intake_lobe_lift: Length = None,
                                     intake_lobe_advertised_duration: Angle = None, intake_lobe_duration_at_050: Angle = None) -> Ratio:
    """Mean flow coefficient of the intake valve from the flow table, over a lift curve sin^n of the open time.

    n from the lobe's durations at the advertised height and at 0.050 in, else 1.5. On the area of the valve head.
    Source: definition, Taylor, The Internal-Combustion Engine, vol. 1, ch. 6 (from memory).
    """
    exponent = head_flow.USUAL_LOBE
    if intake_lobe_lift is not None and intake_lobe_advertised_duration is not None and intake_lobe_duration_at_050 is not None:
        exponent = head_flow.lobe_exponent(intake_lobe_lift, intake_lobe_advertised_duration, intake_lobe_duration_at_050)
    return head_flow.mean_coefficient(intake_port_flow_table, head_flow_bench_depression, intake_valve_head_diameter,
                                      intake_valve_lift, exponent)


def inlet_flow_coefficient__usual(lifter_kind: Choice, duty: Choice) -> Ratio:
    """Mean flow coefficient of an intake valve where the head was not flowed: 0.32 flat, 0.35 roller, 0.39 race.

    Source: common practice, no source.
    """
    if BREATHING.get(duty) == "race":
        return USUAL_FLOW_COEFFICIENT["race"]
    return USUAL_FLOW_COEFFICIENT["roller" if lifter_kind.endswith("roller") else "flat"]


def inlet_mach_index(block_bore: Length, crank_stroke: Length, peak_power_speed: Rpm, intake_valve_head_diameter: Length,
                     inlet_flow_coefficient: Ratio) -> Ratio:
    """Inlet Mach index at the power peak: (bore / valve)^2 x mean piston speed / (mean flow coefficient x speed of sound).

    Air of 25 degC; area of the valve head. Source: Taylor, The Internal-Combustion Engine, vol. 1, ch. 6 (from memory).
    """
    piston_speed = crank_stroke * peak_power_speed / PI
    return (block_bore / intake_valve_head_diameter) ** 2 * piston_speed / (inlet_flow_coefficient * atmosphere.SOUND_AT_STANDARD)


def piston_speed_peak(crank_throw: Length, rod_length: Length, peak_power_speed: Rpm) -> Speed:
    """Highest speed of the piston at the power peak, exact slider-crank, searched by half degrees.

    m, rad/s -> m/s. Source: Heywood, section 2.2.
    """
    angles = [PI * (60 + step / 2) / 180 for step in range(61)]
    return greatest(*(slider_crank.piston_velocity(angle, crank_throw, rod_length, peak_power_speed) for angle in angles))


def port_velocity(block_bore: Length, piston_speed_peak: Speed, intake_port_smallest_area: Area) -> Speed:
    """Highest speed in the tightest place of the intake port at the power peak: piston area x piston speed / area.

    m/s, as if the charge followed the piston. Source: continuity.
    """
    return PI / 4 * block_bore**2 * piston_speed_peak / intake_port_smallest_area


def power_of_head_flow(inlet_flow_at_standard: Flow, cylinders: Count, charge_density_factor: Ratio) -> Power:
    """Power that the intake flow is good for: 0.257 hp per ft^3/min at 28 in of water and cylinder, times charge density.

    m3/s -> W. Source: common practice, no source.
    """
    return POWER_PER_FLOW * inlet_flow_at_standard * cylinders * charge_density_factor


def head_flow_share(engine_power: Power, power_of_head_flow: Power, fuel: Choice) -> Fraction:
    """Claimed power over what the intake flow is good for; alcohols make 5 percent more of the same air.

    Source: common practice, no source.
    """
    return engine_power / power_of_head_flow / ALCOHOL_GAIN["alcohol" if fuel in ALCOHOLS else "other"]


ALCOHOL_GAIN = {"alcohol": 1.05, "other": 1.0}


def air_measures_beaten(duty: Choice, induction: Choice, volumetric_efficiency_of_claim: Fraction = None, inlet_mach_index: Ratio = None,
                        head_flow_share: Fraction = None, port_velocity: Speed = None) -> Count:
    """How many of four measures of air doubt the claimed power: efficiency, valve, head flow and port speed.

    A choked valve counts only where the claim fills the cylinders well. Source: limits of tables.air_claims, common practice, no source.
    """
    row = row_of(duty, induction)
    beaten = 0.0
    for value, rows in ((volumetric_efficiency_of_claim, VOLUMETRIC_EFFICIENCY), (inlet_mach_index, MACH_INDEX),
                        (head_flow_share, HEAD_FLOW_SHARE), (port_velocity, PORT_SPEED)):
        if value is not None:
            doubts = where(value > rows[row] * (1 + 1e-9), 1.0, 0.0)
            if rows is MACH_INDEX and volumetric_efficiency_of_claim is not None:
                doubts = doubts * where(volumetric_efficiency_of_claim > FILLING_FROM[row], 1.0, 0.0)
            beaten = beaten + doubts
    return beaten


# -- runners, throttles, carburetors -------------------------------------------------------------------------------


def runner_tuned_speed(manifold_tuning_method: Choice, manifold_runner_length: Length, manifold_runner_area: Area = None,
                       cylinder_displacement: Volume = None, compression_ratio: Ratio = None,
                       intake_lobe_advertised_duration: Angle = None) -> Rpm:
    """Engine speed the intake runner is tuned to, by the method the spec names.

    Resonator: sound x sqrt(area / (length x effective volume)) / 2.1 with half the swept volume x (r + 1)/(r - 1).
    Time of flight: sound x (720 deg - duration) / (2 x length x 6 trips). Constant product: 84 000 rpm inch / length.
    m, m2, m3 -> rad/s. Source: Engelman's resonator after Heywood, section 7.6 (from memory); the others common practice.
    """
    if manifold_tuning_method == "constant_product":
        return CONSTANT_PRODUCT * CONSTANT_PRODUCT_LENGTH / manifold_runner_length
    if manifold_tuning_method == "time_of_flight":
        if intake_lobe_advertised_duration is None:
            return None
        shut = 4 * PI - intake_lobe_advertised_duration
        return atmosphere.SOUND_AT_STANDARD * shut / (2 * manifold_runner_length * ROUND_TRIPS)
    if manifold_runner_area is None or cylinder_displacement is None or compression_ratio is None:
        return None
    effective = cylinder_displacement / 2 * (compression_ratio + 1) / (compression_ratio - 1)
    return atmosphere.SOUND_AT_STANDARD * sqrt(manifold_runner_area / (manifold_runner_length * effective)) / RESONATOR_CONSTANT


def throttle_area(throttle_count: Count, throttle_bore: Length, throttle_shaft_diameter: Length = None) -> Area:
    """Free area of the open throttles: bores less the shadow of their shafts.

    m -> m2. Source: geometry.
    """
    shadow = 0 * throttle_bore if throttle_shaft_diameter is None else throttle_shaft_diameter
    return throttle_count * (PI / 4 * throttle_bore**2 - shadow * throttle_bore)


def throttle_pressure_loss(air_mass_flow: MassFlow, throttle_area: Area, charge_density_factor: Ratio,
                           throttle_placed: Choice = None) -> Pressure:
    """Pressure lost in the open throttle at the power peak: (flow / (0.85 area))^2 / (2 density).

    Behind a compressor the charge's own density counts, before one the outside air's. kg/s, m2 -> Pa.
    Source: Bernoulli; the coefficient common practice, no source.
    """
    density = atmosphere.STANDARD_DENSITY
    if throttle_placed != "before_compressor":
        density = density * charge_density_factor
    return (air_mass_flow / (THROTTLE_COEFFICIENT * throttle_area)) ** 2 / (2 * density)


def carburetor_depression(air_volume_flow: Flow, carburetor_count: Count, carburetor_flow: Flow, carburetor_rated: Pressure,
                          charge_density_factor: Ratio, carburetor_placed: Choice = None) -> Pressure:
    """Depression under the open carburetors at the power peak: rating depression x (flow asked / flow rated)^2.

    Flow of outside air; behind a compressor the denser charge needs less volume, which leaves the square over density.
    m3/s, Pa -> Pa. Source: Bernoulli.
    """
    depression = carburetor_rated * (air_volume_flow / (carburetor_count * carburetor_flow)) ** 2
    return depression / charge_density_factor if carburetor_placed == "blow_through" else depression


def carburetor_rated(carburetor_rated_at: Pressure) -> Pressure:
    """Depression at which the carburetor's flow was rated, as written.

    Source: the maker's rating.
    """
    return carburetor_rated_at


def carburetor_rated__usual(carburetor_secondaries: Choice) -> Pressure:
    """Depression at which a carburetor's flow is usually rated: 1.5 inHg, two-barrels 3.0 inHg.

    Source: common practice, no source.
    """
    return USUAL_RATING["two_barrel" if carburetor_secondaries == "none_two_barrel" else "four_barrel"]


USUAL_RATING = {"two_barrel": q("3.0 inHg"), "four_barrel": q("1.5 inHg")}


# -- the dynamometer --------------------------------------------------------------------------------------------------

SAE_PRESSURE, SAE_TEMPERATURE = q("99 kPa"), q("298 K", "temperature")
STD_TEMPERATURE = q("60 degF", "temperature")
# ISO 3046-1 takes its reference at 100 kPa, 298 K and 30 percent humidity, and both pressures of its quotient dry.
ISO_3046_DRY = Pressure(atmosphere.dry_pressure(q("100 kPa"), SAE_TEMPERATURE, 0.30))
MECHANICAL_EFFICIENCY = 0.85


def dyno_correction_factor(dyno_correction: Choice, dyno_air_pressure: Pressure, dyno_air_temperature: Temperature,
                           dyno_humidity: Fraction) -> Ratio:
    """Factor from observed to corrected power by the standard named, from air pressure, temperature and humidity.

    With p the dry pressure and T absolute. SAE J1349: 1.180 (99 kPa/p) sqrt(T/298) - 0.180. J607: (29.92 inHg/p)
    sqrt(T/519.67 R). ISO 1585: (99 kPa/p)^1.2 (T/298)^0.6. ISO 3046: 1 / (k - 0.7 (1 - k)(1/0.85 - 1)) with k the
    quotient p/99.06 kPa x sqrt(298/T), the dry part of 100 kPa at 30 percent
    humidity; mechanical efficiency 0.85.
    Source: SAE J1349, as public guides to dynamometer correction print it; SAE J607 (withdrawn), ISO 1585 and
    ISO 3046-1 from memory.
    """
    dry = atmosphere.dry_pressure(dyno_air_pressure, dyno_air_temperature, dyno_humidity)
    if dyno_correction == "sae_j1349":
        return 1.180 * (SAE_PRESSURE / dry) * sqrt(dyno_air_temperature / SAE_TEMPERATURE) - 0.180
    if dyno_correction == "std_j607":
        return atmosphere.STANDARD_PRESSURE / dry * sqrt(dyno_air_temperature / STD_TEMPERATURE)
    if dyno_correction == "iso_1585":
        return (SAE_PRESSURE / dry) ** 1.2 * (dyno_air_temperature / SAE_TEMPERATURE) ** 0.6
    if dyno_correction == "iso_3046":
        quotient = dry / ISO_3046_DRY * sqrt(SAE_TEMPERATURE / dyno_air_temperature)
        return 1 / (quotient - 0.7 * (1 - quotient) * (1 / MECHANICAL_EFFICIENCY - 1))
    return None


def dyno_factor_used(dyno_correction_factor_written: Ratio) -> Ratio:
    """Factor between observed and corrected power as the sheet prints it.

    Source: the dynamometer sheet.
    """
    return dyno_correction_factor_written


def dyno_factor_used__of_powers(dyno_corrected_power: Power, dyno_observed_power: Power) -> Ratio:
    """Factor between observed and corrected power, from the two powers of the sheet.

    Source: definition.
    """
    return dyno_corrected_power / dyno_observed_power
