"""The clearance volume, term by term, the static and the trapped ratio, and what a compression gauge should read.

The octane scales stand here too, since they are what a ratio is held against. How high the pressure goes when the
charge burns stands in ``cylinder_pressure``.
"""

from ..dimensions import Angle, Choice, Fraction, Length, Octane, Pressure, Ratio, Volume
from ..mechanics import slider_crank
from ..numeric import PI, valid
from ..quantities import q
from ..tables.fuels import FAMILY
from ..tables.octane import USUAL_ANTIKNOCK, USUAL_SENSITIVITY

# From where the lobe is at 0.050 in to the seat, where no advertised figure is known. Common practice, no source.
RAMP = q("25 deg")

# Exponents of compression at cranking speed: 1.20 usual; 1.10 to 1.30 is what gauges, oil, heat and leakage make of it.
# Common practice, no source; calibrate against the shop's own gauge.
CRANKING_EXPONENT, CRANKING_LEAST, CRANKING_MOST = 1.20, 1.10, 1.30


def crown_volume__of_fill_test(piston_fill_test_volume: Volume, piston_fill_test_depth: Length, block_bore: Length) -> Volume:
    """What the crown adds to the chamber by a fill test: liquid poured in less the plain cylinder to that depth.

    m3, m -> m3; negative for a dome. Source: geometry.
    """
    return piston_fill_test_volume - PI / 4 * block_bore**2 * piston_fill_test_depth


def crown_volume(piston_dish_volume: Volume, piston_dome_volume: Volume = None) -> Volume:
    """What the crown adds to the chamber: dish less dome; negative for a dome.

    m3. Source: geometry.
    """
    return piston_dish_volume if piston_dome_volume is None else piston_dish_volume - piston_dome_volume


def crown_volume__of_dome(piston_dome_volume: Volume) -> Volume:
    """What a domed crown without a dish takes from the chamber: minus the dome.

    m3. Source: geometry.
    """
    return -piston_dome_volume


def crown_volume__of_flat(piston_crown: Choice) -> Volume:
    """A flat crown without pockets adds nothing.

    m3. Source: geometry.
    """
    return 0.0 if piston_crown == "flat" else None


def gasket_volume(head_gasket_opening_volume: Volume) -> Volume:
    """Volume inside the clamped gasket, as its maker gives it for openings that are not round.

    m3. Source: the gasket maker's sheet.
    """
    return head_gasket_opening_volume


def gasket_volume__of_round_opening(head_gasket_bore: Length, head_gasket_compressed_thickness: Length) -> Volume:
    """Volume inside the clamped gasket: pi/4 x opening^2 x compressed thickness.

    m -> m3. Source: geometry.
    """
    return PI / 4 * head_gasket_bore**2 * head_gasket_compressed_thickness


def deck_volume(block_bore: Length, piston_below_deck: Length) -> Volume:
    """Volume between the flat of the crown and the deck at top: pi/4 x bore^2 x depth below the deck.

    Negative when the piston stands above the deck. m -> m3. Source: geometry.
    """
    return PI / 4 * block_bore**2 * piston_below_deck


def clearance_volume(head_chamber_volume: Volume, gasket_volume: Volume, deck_volume: Volume,
                     crown_volume: Volume) -> Volume:
    """Volume left at top: chamber, gasket, deck and crown.

    The crevice above the top ring is left out, as catalogue ratios leave it out. m3. Source: geometry.
    """
    return head_chamber_volume + gasket_volume + deck_volume + crown_volume


def compression_ratio(cylinder_displacement: Volume, clearance_volume: Volume) -> Ratio:
    """Static compression ratio: (swept + clearance) / clearance; no answer where nothing is left above the piston.

    Source: Heywood, Internal Combustion Engine Fundamentals, ch. 2.
    """
    return valid(clearance_volume > 0, (cylinder_displacement + clearance_volume) / clearance_volume)


# -- the crevice and the closing valve -----------------------------------------------------------------------


def crevice_volume(block_bore: Length, piston_top_land_diameter: Length, top_ring_crown_to_groove: Length) -> Volume:
    """Ring-shaped gap round the top land, down to the top ring: pi/4 (bore^2 - land^2) x height of the land.

    m -> m3. Source: geometry; Heywood, Internal Combustion Engine Fundamentals, section 8.6, on its meaning.
    """
    return PI / 4 * (block_bore**2 - piston_top_land_diameter**2) * top_ring_crown_to_groove


def crevice_share(crevice_volume: Volume, clearance_volume: Volume) -> Fraction:
    """Crevice over the whole volume at top: crevice / (clearance + crevice).

    Source: definition.
    """
    return crevice_volume / (clearance_volume + crevice_volume)


def compression_ratio_with_crevice(cylinder_displacement: Volume, clearance_volume: Volume, crevice_volume: Volume) -> Ratio:
    """Static compression ratio with the crevice above the top ring counted in.

    Source: Heywood, Internal Combustion Engine Fundamentals, ch. 2.
    """
    return 1 + cylinder_displacement / (clearance_volume + crevice_volume)


def intake_closing_seat__of_event(intake_lobe_closes_after_bottom_advertised: Angle,
                                  intake_lobe_centerline_in_engine: Angle = None,
                                  intake_lobe_centerline: Angle = None) -> Angle:
    """Intake closing after bottom near the seat: the card's advertised event, moved as the cam is moved in the engine.

    rad of crank. Source: definition of the events.
    """
    return _moved(intake_lobe_closes_after_bottom_advertised, intake_lobe_centerline_in_engine, intake_lobe_centerline)


def intake_closing_seat__of_duration(intake_lobe_advertised_duration: Angle, intake_lobe_centerline_in_engine: Angle) -> Angle:
    """Intake closing after bottom near the seat: centerline plus half the advertised duration less 180 degrees.

    rad of crank; true for a symmetric lobe. Source: definition of the events.
    """
    return intake_lobe_centerline_in_engine + intake_lobe_advertised_duration / 2 - PI


def intake_closing_seat__of_event_at_050(intake_lobe_closes_after_bottom_at_050: Angle,
                                         intake_lobe_centerline_in_engine: Angle = None,
                                         intake_lobe_centerline: Angle = None) -> Angle:
    """Intake closing after bottom near the seat: the event at 0.050 in and 25 degrees of ramp, an assumption.

    rad of crank. Source: common practice, no source.
    """
    return RAMP + _moved(intake_lobe_closes_after_bottom_at_050, intake_lobe_centerline_in_engine, intake_lobe_centerline)


def intake_closing_seat__of_duration_at_050(intake_lobe_duration_at_050: Angle, intake_lobe_centerline_in_engine: Angle) -> Angle:
    """Intake closing after bottom near the seat: centerline, half the duration at 0.050 in and 25 degrees of ramp.

    rad of crank; the ramp is an assumption. Source: common practice, no source.
    """
    return RAMP + intake_lobe_centerline_in_engine + intake_lobe_duration_at_050 / 2 - PI


def _moved(event, centerline_in_engine, centerline):
    if centerline_in_engine is None or centerline is None:
        return event
    return event + centerline_in_engine - centerline


def trapped_compression_ratio(block_bore: Length, crank_throw: Length, rod_length: Length, intake_closing_seat: Angle,
                              clearance_volume: Volume, crevice_volume: Volume = None,
                              piston_pin_offset_to_thrust_side: Length = None) -> Ratio:
    """Ratio from the closing of the intake valve: 1 + bore area x height of the piston there / volume at top.

    Exact slider-crank; the degree wheel is taken as zeroed at the piston's true top; the crevice counts where the
    top land is known. m, rad, m3. Source: slider-crank, Heywood, Internal Combustion Engine Fundamentals, section 2.2.
    """
    offset = 0 * crank_throw if piston_pin_offset_to_thrust_side is None else piston_pin_offset_to_thrust_side
    angle = PI + intake_closing_seat + slider_crank.top_angle(crank_throw, rod_length, offset)
    height = slider_crank.piston_drop(angle, crank_throw, rod_length, offset)
    at_top = clearance_volume if crevice_volume is None else clearance_volume + crevice_volume
    return 1 + PI / 4 * block_bore**2 * height / at_top


# -- the gauge in the plug hole -------------------------------------------------------------------------------


def cranking_pressure_expected(trapped_compression_ratio: Ratio, air_pressure: Pressure) -> Pressure:
    """Usual reading of a compression gauge: air pressure x (trapped ratio^1.20 - 1).

    Pa, gauge. Source: polytropic compression; the exponent is common practice, no source.
    """
    return air_pressure * (trapped_compression_ratio**CRANKING_EXPONENT - 1)


def cranking_pressure_expected_low(trapped_compression_ratio: Ratio, air_pressure_lowest: Pressure) -> Pressure:
    """Lowest believable reading, at the highest place of use: air pressure x (trapped ratio^1.10 - 1).

    Pa, gauge. Source: polytropic compression; the exponent is common practice, no source.
    """
    return air_pressure_lowest * (trapped_compression_ratio**CRANKING_LEAST - 1)


def cranking_pressure_expected_high(trapped_compression_ratio: Ratio, air_pressure: Pressure) -> Pressure:
    """Highest believable reading, at the lowest place of use: air pressure x (trapped ratio^1.30 - 1).

    Pa, gauge. Source: polytropic compression; the exponent is common practice, no source.
    """
    return air_pressure * (trapped_compression_ratio**CRANKING_MOST - 1)


# -- octane -----------------------------------------------------------------------------------------------------


def octane_sensitivity(fuel_octane_sensitivity: Octane) -> Octane:
    """Research less motor octane number, as written.

    Source: definition.
    """
    return fuel_octane_sensitivity


def octane_sensitivity__usual(fuel: Choice) -> Octane:
    """Research less motor octane number where it is not written: 9 for gasoline, about 15 for alcohols and propane.

    Source: alcohols and propane: property table of the Alternative Fuels Data Center, U.S. Department of Energy;
    gasoline: common practice, no source.
    """
    return USUAL_SENSITIVITY.get(FAMILY.get(fuel))


def antiknock_index(fuel_octane: Octane, fuel_octane_scale: Choice, octane_sensitivity: Octane) -> Octane:
    """Anti-knock index, the mean of research and motor number: RON - s/2, or MON + s/2.

    Source: definition, ASTM D4814: half of research plus motor number.
    """
    return fuel_octane + {"aki": 0.0, "ron": -0.5, "mon": 0.5}[fuel_octane_scale] * octane_sensitivity


def antiknock_index__usual(fuel: Choice) -> Octane:
    """Anti-knock index of alcohols and propane where no octane is written.

    Source: property table of the Alternative Fuels Data Center, U.S. Department of Energy; E85 from memory.
    """
    return USUAL_ANTIKNOCK.get(FAMILY.get(fuel))


def research_octane(antiknock_index: Octane, octane_sensitivity: Octane) -> Octane:
    """Research octane number: anti-knock index plus half the sensitivity.

    Source: definition.
    """
    return antiknock_index + octane_sensitivity / 2


def motor_octane(antiknock_index: Octane, octane_sensitivity: Octane) -> Octane:
    """Motor octane number: anti-knock index less half the sensitivity.

    Source: definition.
    """
    return antiknock_index - octane_sensitivity / 2
