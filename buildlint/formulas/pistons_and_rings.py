"""Piston in its bore, pin in its piston, rings in their grooves: clearances cold and hot, and what stays in the bore."""

from ..dimensions import Choice, Length, Power, Pressure, Ratio, Temperature
from ..mechanics.expansion import ONE_KELVIN, REFERENCE_TEMPERATURE, growth
from ..numeric import PI
from ..quantities import q
from ..tables.materials import BORE_METAL, CASTING_METAL, CRANK_METAL, EXPANSION, PISTON_METAL, RING_METAL, ROD_METAL

# Temperatures assumed above 20 degC. Common practice, no source.
SKIRT_RISE = {"street": q("80 K", "temperature_rise"), "race": q("90 K", "temperature_rise"),
              "forced": q("110 K", "temperature_rise")}
STREET = ("stock", "street", "street_strip")
TOP_RING_RISE = {"natural": q("200 K", "temperature_rise"), "mild": q("240 K", "temperature_rise"),
                 "hard": q("280 K", "temperature_rise")}
TOP_BORE_RISE = {"natural": q("130 K", "temperature_rise"), "mild": q("138 K", "temperature_rise"),
                 "hard": q("145 K", "temperature_rise")}
MILD_BOOST = q("105 kPa")
ROD_RISE = {"aluminum": q("110 K", "temperature_rise")}
OTHER_ROD_RISE = q("90 K", "temperature_rise")
PISTON_RISE, CRANK_RISE = q("180 K", "temperature_rise"), q("80 K", "temperature_rise")
BLOCK_RISE = q("75 K", "temperature_rise")
PIN_RISE = q("130 K", "temperature_rise")


def piston_wall_clearance(block_bore: Length, piston_gauge_diameter: Length) -> Length:
    """Clearance of the piston in its bore: bore less gauge diameter.

    m. Source: definition.
    """
    return block_bore - piston_gauge_diameter


def piston_clearance_ratio(piston_wall_clearance: Length, block_bore: Length) -> Ratio:
    """Piston clearance for each unit of bore.

    Source: definition.
    """
    return piston_wall_clearance / block_bore


def bore_metal(block_bore_surface: Choice) -> Choice:
    """The metal whose growth the bore follows: of the sleeve, or of the block where it has none.

    Source: common practice.
    """
    return BORE_METAL.get(block_bore_surface)


def bore_metal__of_block(block_material: Choice) -> Choice:
    """The metal whose growth the bore follows: that of the block.

    Source: common practice.
    """
    return CASTING_METAL.get(block_material)


def block_bore_warm_growth(block_bore: Length, bore_metal: Choice, block_hone_temperature: Temperature) -> Length:
    """How much larger a bore is where it was measured warm than at 20 degC; negative where it was cold.

    m. Source: thermal expansion by the table of materials; 20 degC is the reference temperature of ISO 1.
    """
    if bore_metal not in EXPANSION:
        return None
    return growth(bore_metal, block_bore, block_hone_temperature - REFERENCE_TEMPERATURE)


def piston_clearance_hot(block_bore: Length, piston_wall_clearance: Length, piston_class: Choice, bore_metal: Choice = None,
                         duty: Choice = None, induction: Choice = None, nitrous_power: Power = None) -> Length:
    """Clearance with skirt and bore both warm: 80 K above room temperature on the street, 90 racing, 110 boosted.

    m. Source: thermal expansion by the table of materials; the temperatures fitted to usual clearances, common practice, no
    source.
    """
    if piston_class not in PISTON_METAL:
        return None
    forced = nitrous_power is not None or induction not in (None, "natural")
    rise = SKIRT_RISE["forced" if forced else "street" if duty in STREET else "race"]
    piston = block_bore - piston_wall_clearance
    return (piston_wall_clearance + growth(bore_metal or "gray_iron", block_bore, rise)
            - growth(PISTON_METAL[piston_class], piston, rise))


def quench_closing(
    rod_stretch: Length, rod_material: Choice, rod_length: Length, piston_class: Choice, piston_compression_height: Length,
    crank_throw: Length, block_material: Choice, block_deck_height: Length, crank_material: Choice = None,
    rod_bearing_clearance_largest: Length = None, main_bearing_clearance_largest: Length = None,
    piston_pin_clearance_in_piston: Length = None, piston_rock: Length = None,
) -> Length:
    """How much of the cold gap at top is gone hot and at speed: growth, stretch, half the bearing play, and rock.

    Rod 90 K (aluminum 110), piston 180, crank 80, block 75 K above room temperature. m.
    Source: thermal expansion and Hooke's law; the temperatures common practice, no source.
    """
    rod, piston, block = ROD_METAL.get(rod_material), PISTON_METAL.get(piston_class), CASTING_METAL.get(block_material)
    if rod is None or piston is None or block is None:
        return None
    closing = (growth(rod, rod_length, ROD_RISE.get(rod_material, OTHER_ROD_RISE))
               + growth(piston, piston_compression_height, PISTON_RISE)
               + growth(CRANK_METAL.get(crank_material, "steel"), crank_throw, CRANK_RISE)
               - growth(block, block_deck_height, BLOCK_RISE) + rod_stretch)
    for play in (rod_bearing_clearance_largest, main_bearing_clearance_largest, piston_pin_clearance_in_piston):
        if play is not None:
            closing = closing + play / 2
    return closing if piston_rock is None else closing + piston_rock


def piston_rock(piston_wall_clearance: Length, block_bore: Length, piston_skirt_length: Length) -> Length:
    """How much higher one edge of the crown stands when the piston leans in its bore: clearance x bore / (2 skirt length).

    m. Source: geometry.
    """
    return piston_wall_clearance * block_bore / (2 * piston_skirt_length)


def oil_ring_bore_margin(block_bore_length: Length, crank_stroke: Length, piston_below_deck_largest: Length,
                         oil_ring_crown_to_groove_bottom: Length) -> Length:
    """Bore left below the oil ring at bottom: bore length less stroke, deck clearance and depth of the ring.

    m. Source: geometry.
    """
    return block_bore_length - (crank_stroke + piston_below_deck_largest + oil_ring_crown_to_groove_bottom)


def skirt_out_of_bore(block_bore_length: Length, crank_stroke: Length, piston_below_deck_largest: Length,
                      piston_crown_to_skirt_end: Length) -> Length:
    """How far the skirt hangs out of the bore at bottom; negative where it ends inside.

    m. Source: geometry.
    """
    return crank_stroke + piston_below_deck_largest + piston_crown_to_skirt_end - block_bore_length


# -- pins -------------------------------------------------------------------------------------------------


def piston_pin_clearance_in_piston(piston_pin_bore: Length, piston_pin_outside_diameter: Length) -> Length:
    """Clearance of the wrist pin in the piston: bore less pin.

    m. Source: definition.
    """
    return piston_pin_bore - piston_pin_outside_diameter


def piston_pin_clearance_in_rod(rod_pin_bore: Length, piston_pin_outside_diameter: Length, piston_pin_fit: Choice) -> Length:
    """Clearance of a floating pin in the rod: bore less pin.

    m. Source: definition.
    """
    return rod_pin_bore - piston_pin_outside_diameter if piston_pin_fit == "floating" else None


def piston_pin_interference_in_rod(piston_pin_outside_diameter: Length, rod_pin_bore: Length, piston_pin_fit: Choice) -> Length:
    """Press of a pin in the rod: pin less bore, positive when tight.

    m. Source: definition.
    """
    return piston_pin_outside_diameter - rod_pin_bore if piston_pin_fit == "pressed" else None


def piston_pin_end_play(piston_pin_lock_groove_spacing: Length, piston_pin_lock_thickness: Length,
                        piston_pin_length: Length) -> Length:
    """Play of the pin between its locks: groove to groove less two locks less the pin.

    m. Source: arithmetic.
    """
    return piston_pin_lock_groove_spacing - 2 * piston_pin_lock_thickness - piston_pin_length


def piston_pin_gain_hot(piston_pin_outside_diameter: Length, piston_class: Choice) -> Length:
    """How much the piston's pin bore opens away from its steel pin, 130 K above room temperature.

    m. Source: thermal expansion by the table of materials; the 130 K common practice, no source.
    """
    if piston_class not in PISTON_METAL:
        return None
    return (growth(PISTON_METAL[piston_class], piston_pin_outside_diameter, PIN_RISE)
            - growth("steel", piston_pin_outside_diameter, PIN_RISE))


# -- one ring (scope ring) --------------------------------------------------------------------------------


def side_clearance(groove_width: Length, width: Length) -> Length:
    """Play of a ring along the bore: groove less ring.

    m. Source: definition.
    """
    return groove_width - width


def back_clearance(block_bore: Length, groove_root_diameter: Length, radial_thickness: Length) -> Length:
    """Room behind a ring that lies flush with the piston's wall: half of bore less root, less the ring.

    m. Source: geometry.
    """
    return (block_bore - groove_root_diameter) / 2 - radial_thickness


def end_gap_factor(end_gap: Length, block_bore: Length) -> Ratio:
    """End gap for each unit of bore.

    Source: definition.
    """
    return end_gap / block_bore


def end_gap_hot(ring_name: Choice, end_gap: Length, block_bore: Length, material: Choice = None, bore_metal: Choice = None,
                boost_pressure: Pressure = None, induction: Choice = None, nitrous_power: Power = None) -> Length:
    """Gap of the top ring at running heat: gap less pi x bore x what the ring grows more than the bore.

    Ring and bore at top are taken 200 and 130 K above room temperature; up to 105 kPa of boost 240 and 138; with more, or
    with nitrous, 280 and 145 K. m. Source: thermal expansion; the temperatures common practice, no source.
    """
    if ring_name != "top":
        return None
    row = _ring_heat(induction, boost_pressure, nitrous_power)
    closing = growth(RING_METAL.get(material, "ring_iron"), PI * block_bore, TOP_RING_RISE[row]) \
        - growth(bore_metal or "gray_iron", PI * block_bore, TOP_BORE_RISE[row])
    return end_gap - closing


def butting_temperature(ring_name: Choice, end_gap: Length, block_bore: Length, material: Choice = None,
                        bore_metal: Choice = None, boost_pressure: Pressure = None, induction: Choice = None,
                        nitrous_power: Power = None) -> Temperature:
    """Temperature of the top ring at which its ends meet, with the bore at the heat assumed for end_gap_hot.

    20 degC and (gap / (pi x bore) and what the bore grows) over the ring's expansion. m -> K.
    Source: thermal expansion; the bore's temperature common practice, no source.
    """
    if ring_name != "top":
        return None
    row = _ring_heat(induction, boost_pressure, nitrous_power)
    room = end_gap + growth(bore_metal or "gray_iron", PI * block_bore, TOP_BORE_RISE[row])
    return REFERENCE_TEMPERATURE + ONE_KELVIN * (room / (EXPANSION[RING_METAL.get(material, "ring_iron")] * PI * block_bore))


def _ring_heat(induction, boost_pressure, nitrous_power):
    if nitrous_power is not None:
        return "hard"
    if induction in (None, "natural"):
        return "natural"
    return "hard" if boost_pressure is not None and boost_pressure > MILD_BOOST else "mild"
