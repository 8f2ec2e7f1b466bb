"""The oil ring and its surroundings: support rail, tension, vacuum, and what only eyes can check of the rings."""

from buildlint.rulebook import *

RAIL = """
pistons:
  compression_height: %s
  pin: {outside_diameter: 0.927 in}
  support_rail: %s  %s
rings:
  oil: {crown_to_groove_bottom: 0.7925 in}
"""


@rule(
    scope="ring",
    level="error",
    due="ordering",
    says="Pin bore, oil groove and support rail do not go together.",
    fix="Order support rails with the pistons where the pin's bore cuts the groove, and only there.",
    source="geometry",
    when={"ring_name": ("oil",)},
    points_at=("piston_support_rail", "crown_to_groove_bottom"),
    conforming=(RAIL % ("1.125 in", "fitted", ""), RAIL % ("1.560 in", "none", ""), """
        pistons: {compression_height: 1.560 in, support_rail: none, pin: {outside_diameter: 0.927 in}}
        rings: {oil: {end_gap: 0.030 in}}
        """),
    nonconforming=(RAIL % ("1.125 in", "none", "# <-"), RAIL % ("1.560 in", "fitted", "# <-")),
)
def support_rail_bridges_pin_bore(
    piston_compression_height: Length, piston_pin_outside_diameter: Length, crown_to_groove_bottom: Length = None,
    piston_support_rail: Choice = None, *, deepest_groove: Length = q("1.00 in"),
):
    """In a short piston the pin's bore cuts through the oil groove; there the ring hangs in the air and needs a rail under it.

    Where the depth of the groove is not written, a pin that lies deeper than the oldest wide rings reach is out of question.
    """
    top_of_pin = piston_compression_height - piston_pin_outside_diameter / 2
    if crown_to_groove_bottom is None:
        if top_of_pin >= deepest_groove and piston_support_rail != "fitted":
            return not_applicable("the pin lies deeper than any oil groove")
        return lacking("crown_to_groove_bottom")
    cut = crown_to_groove_bottom - top_of_pin
    if piston_support_rail is None:
        return lacking("piston_support_rail") if cut > 0 else not_applicable("the groove clears the pin's bore")
    if cut > 0 and piston_support_rail != "fitted":
        return require(False).telling(cut=Length(cut)).saying(
            "The pin's bore cuts {cut} into the oil ring's groove, and no support rail is fitted.",
            "Order support rails with the pistons, one for each, and oil rings to suit.")
    if cut <= 0 and piston_support_rail == "fitted":
        return require(False, "note").telling(cut=Length(-cut)).saying(
            "A support rail is listed, but the oil groove clears the pin's bore by {cut}.",
            "Look again at the depth of the groove; a rail without need costs height in the groove.").at("piston_support_rail")
    return passes()


@rule(
    scope="ring",
    level="reminder",
    due="assembly",
    says="Support rails lie with their detent down, in the opening of the pin's bore; the expander's ends butt and do not overlap.",
    fix="Look at every piston before it goes in, and again through the pin's bore.",
    source="common practice, no source",
    when={"ring_name": ("oil",), "piston_support_rail": fitted},
    points_at=("piston_support_rail",),
    conforming="pistons: {support_rail: fitted}",
)
def support_rail_detent_faces_down(piston_support_rail: Choice):
    """A rail that turns brings its gap over the opening and drops out; the detent keeps it from turning."""
    return review()


TENSION = """
rings:
  oil: {tension: %s, width: %s}  %s
"""


@rule(
    scope="ring",
    level="warning",
    due="ordering",
    says="The oil ring's tension is {value}; {limit} is {use}.",
    fix="Order a ring of {limit} or more, or fit a vacuum pump that holds {vacuum_needed} and write accessories.crankcase_vacuum.",
    source="common practice, no source; 17 lbf for 3/16 in and 10 lbf for 3 mm rings seen",
    when={"ring_name": ("oil",), "tension": given},
    points_at=("tension",),
    conforming=(TENSION % ("17 lbf", "3/16 in", ""), """
        accessories: {crankcase_vacuum: 12 inHg}
        rings:
          oil: {tension: 8 lbf, width: 3 mm}
        """),
    nonconforming=(TENSION % ("8 lbf", "3 mm", "# <-"), TENSION % ("12 lbf", "3/16 in", "# <-"), TENSION % ("24 lbf", "3/16 in", "# <-")),
)
def oil_ring_tension_suits_vacuum(
    tension: Force, width: Length = None, crankcase_vacuum: Pressure = None, oil_sump: Choice = None, *,
    low: Force = q("10 lbf"), wide_low: Force = q("15 lbf"), wide_from: Length = q("4.5 mm"), high: Force = q("22 lbf"),
    vacuum_needed: Pressure = q("10 inHg"),
):
    """Little tension frees power only where the crankcase pulls the oil down; without vacuum it smokes.

    It also wants bores honed round with a plate. A dry sump that draws vacuum counts when the vacuum is written.
    """
    vacuum = crankcase_vacuum is not None and crankcase_vacuum >= vacuum_needed
    if tension > high:
        return at_most(tension, note=high).telling(use="the most that is usual").saying(
            fix="It will run, with more friction than it needs; the maker's sheet wins.")
    if vacuum:
        return passes()
    wide = width is not None and width >= wide_from
    verdict = at_least(tension, warning=low, note=wide_low if wide else None)
    return verdict.telling(use="usual without crankcase vacuum")


VACUUM = """
oiling: {sump: wet}
accessories: {crankcase_vacuum: %s}  %s
pistons:
  pin: {oiling: %s}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The crankcase is drawn to {value} of vacuum and the wrist pins live on {oiling}; above {limit} they want oil of their own.",
    fix="Limit the vacuum to {limit} with a relief valve, or feed the pins: holes from the oil ring, drilled rods or jets.",
    source="common practice, no source",
    when={"crankcase_vacuum": given, "oil_sump": ("wet",)},
    points_at=("crankcase_vacuum",),
    conforming=(VACUUM % ("12 inHg", "", "splash"), VACUUM % ("15 inHg", "", "jets")),
    nonconforming=VACUUM % ("15 inHg", "# <-", "splash"),
)
def crankcase_vacuum_keeps_pins_oiled(
    crankcase_vacuum: Pressure, piston_pin_oiling: Choice = None, rod_pin_oil_hole: YesNo = None, *, most: Pressure = q("41 kPa"),
):
    """Vacuum clears the mist out of the crankcase, and with it the only oil that a splash-fed pin gets.

    Twelve inches of mercury is the everyday limit of a wet sump without pin oilers; others run fifteen.
    """
    if piston_pin_oiling in ("piston_holes", "rod_drilled", "jets") or rod_pin_oil_hole and piston_pin_oiling is None:
        return passes()
    return at_most(crankcase_vacuum, most).telling(oiling="splash" if piston_pin_oiling else "what splashes up")


MASS = """
crank: {stroke: 3.48 in}
rods: {length: 5.700 in}
build: {rev_limit: %s}
rings:
  top: {width: %s}  %s
"""


@rule(
    scope="ring",
    level="note",
    due="ordering",
    says="By an old index the top ring's width times the piston's acceleration is {value} times what the gas can hold down.",
    fix="A ring of 1.2 or 1.0 mm is lighter for its face; look for it when the engine loses power above {rev_limit}.",
    source="Jennings, Two-Stroke Tuner's Handbook (1973), from memory; made for two-strokes",
    when={"ring_name": ("top",)},
    points_at=("width",),
    conforming=MASS % ("6500 rpm", "1/16 in", ""),
    nonconforming=MASS % ("8500 rpm", "5/64 in", "# <-"),
)
def ring_mass_suits_acceleration(
    width: Length, piston_acceleration_top: Acceleration, *, note_above: Ratio = q("1.5", "ratio"),
    index: Pressure = q("279 kPa"), density: Density = q("7200 kg/m^3"),
):
    """Near top the ring wants to fly on; where its mass outweighs the pressure above it, it lifts and lets gas by.

    The index was found on two-strokes and is conservative here; it only ranks one ring against another.
    """
    return at_most(Ratio(width * piston_acceleration_top * density / index), note=note_above)


@rule(
    scope="ring",
    level="reminder",
    due="assembly",
    says="The marked side of every ring faces up, taper and scraper of the second ring stand the right way, and the gaps of top and "
         "second lie at least 90 degrees apart, off the pin and the thrust faces.",
    fix="Fit the rings with an expander, turn the gaps to their places and look once more before the compressor goes on.",
    source="common practice, no source",
    when={"ring_name": ("top",), "end_gap": given},
    points_at=("end_gap",),
    conforming="rings: {top: {end_gap: 0.019 in}}",
)
def rings_face_up_and_are_spread(end_gap: Length):
    """A scraper ring upside down pumps oil up; nothing on the running engine tells it from a worn guide."""
    return review()
