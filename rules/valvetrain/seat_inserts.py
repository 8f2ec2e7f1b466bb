"""Seat inserts: what they are made of, how they hold, how they go in."""

from buildlint.rulebook import *

PAIR = """
build: {fuel: %s, duty: %s, induction: %s}
exhaust:
  valve: {material: %s, face_coating: %s}
  seat: {kind: %s, material: %s}  %s
"""

HARD_SEATS = ("cast_iron", "hardened_iron", "powder_metal", "cobalt_alloy")
BRONZES = ("aluminum_bronze", "nickel_bronze")


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Seat and valve do not suit each other: {trouble}.",
    fix="{cure}",
    source="seat and fuel pairings: trade press; common practice, no source; titanium pairings are disputed",
    points_at=("seat_material",),
    conforming=(PAIR % ("pump_gasoline", "street", "natural", "austenitic_21_4n", "none", "insert", "powder_metal", ""),
                PAIR % ("race_gasoline", "drag_race", "natural", "titanium", "hard_film", "insert", "nickel_bronze", ""),
                PAIR % ("pump_gasoline", "stock", "natural", "austenitic_21_4n", "none", "integral", "hardened_iron", "")),
    nonconforming=(PAIR % ("race_gasoline", "drag_race", "natural", "titanium", "none", "insert", "powder_metal", "# <-"),
                   PAIR % ("pump_gasoline", "towing", "natural", "austenitic_21_4n", "none", "integral", "cast_iron", "# <-"),
                   PAIR % ("pump_gasoline", "stock", "natural", "austenitic_21_4n", "none", "integral", "cast_iron", "# <-"),
                   PAIR % ("pump_gasoline", "street", "turbocharged", "austenitic_21_4n", "none", "insert", "aluminum_bronze", "# <-"),
                   PAIR % ("lpg", "street", "natural", "austenitic_21_4n", "none", "insert", "powder_metal", "# <-")),
)
def seat_material_suits_valve(
    seat_material: Choice, side_name: Choice, seat_kind: Choice = None, valve_material: Choice = None, valve_face_coating: Choice = None,
    fuel: Choice = None, induction: Choice = None, boost_pressure: Pressure = None, duty: Choice = None,
):
    """Seat and valve wear each other; which of them, depends on the pair, the heat and the fuel.

    Titanium is chewed up by hard seats unless its face is coated; bronzes are its seats, and go soft under a boosted
    exhaust. Iron seats cut into the head lived on leaded fuel; without it the exhaust sinks under load, slowly in light
    duty, where it is only a note. Powder metal needs a little fuel film, which dry gas does not leave.
    """
    boosted = induction in ("supercharged", "turbocharged") or (boost_pressure is not None and boost_pressure > 0)
    exhaust = side_name == "exhaust"
    if valve_material == "titanium" and valve_face_coating in (None, "none") and seat_material in HARD_SEATS:
        return require(False).telling(trouble="uncoated titanium closes on a hard seat",
                                      cure="Fit nickel or aluminum bronze or beryllium copper seats, or order coated faces.")
    if exhaust and boosted and seat_material in BRONZES:
        return require(False).telling(trouble="bronze exhaust seats soften under boost", cure="Fit powder-metal or cobalt seats with steel valves.")
    if fuel == "lpg" and seat_material == "powder_metal":
        return require(False).telling(trouble="powder-metal seats wear on dry gas", cure="Fit seats made for gas, cobalt alloy for the exhaust.")
    if exhaust and seat_material == "cast_iron" and seat_kind != "insert" and fuel not in (None, "race_gasoline"):
        light = duty in ("stock", "street") and not boosted
        return require(False, level="note" if light else None).telling(
            trouble="the exhaust seats are cut into plain iron, and the fuel has no lead to spare them",
            cure="Have hardened inserts fitted when the heads are apart, or watch the exhaust lash.")
    return passes()


GRIP = """
heads: {material: %s}
intake:
  seat: {kind: insert, material: powder_metal, insert_outside_diameter: %s, insert_counterbore: 2.1000 in}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The seat insert is pressed in with {value} {when}; keep {limit}.",
    fix="Cut the counterbore, or take an insert, for {target_low:up} to {target_high:down} of press in this head.",
    source="iron: 0.002 to 0.004 in, TM 5-6115-400-35 table 2.1; aluminum: trade articles disagree, common practice, no source",
    when={"seat_insert_interference": given},
    compares=("seat_insert_interference",),
    points_at=("seat_insert_interference", "seat_insert_outside_diameter"),
    conforming=(GRIP % ("aluminum_356_t6", "2.1050 in", ""), GRIP % ("cast_iron", "2.1040 in", "")),
    nonconforming=(GRIP % ("aluminum_356_t6", "2.1025 in", "# <-"), GRIP % ("cast_iron", "2.1015 in", "# <-"),
                   GRIP % ("aluminum_356_t6", "2.1095 in", "# <-"), GRIP % ("aluminum_356_t6", "2.1035 in", "# <-")),
)
def seat_insert_keeps_its_grip(
    seat_insert_interference: Length, head_material: Choice, seat_insert_interference_hot: Length = None, *,
    warning_below={"iron": q("0.002 in"), "aluminum": q("0.003 in")}, warning_above: Length = q("0.008 in"),
    warning_below_hot: Length = q("0.001 in"),
    usual_low={"iron": q("0.003 in"), "aluminum": q("0.0045 in")}, usual_high={"iron": q("0.005 in"), "aluminum": q("0.0065 in")},
):
    """An insert that comes loose takes the valve, the piston and the head with it; one pressed too hard cracks the head.

    Aluminum grows away from its inserts, and at running heat two to three thousandths of the press are gone. How much to
    give in aluminum is disputed, 0.0025 to 0.003 in per inch of seat being the middle; what is left hot is what counts.
    """
    family = "aluminum" if head_material.startswith(("aluminum", "magnesium")) else "iron"
    verdict = within(seat_insert_interference, warning=(warning_below[family], warning_above)).telling(when="cold")
    if verdict.kind == "pass" and seat_insert_interference_hot is not None:
        verdict = at_least(Length(seat_insert_interference_hot), warning=warning_below_hot).telling(when="left when hot")
    return verdict.telling(target_low=Length(usual_low[family]), target_high=Length(usual_high[family]))


@rule(
    scope="side",
    level="reminder",
    due="machining",
    says="Chill the insert and warm the head before the insert goes in, and drive it home square in one go.",
    fix="Warm the head to 100 to 150 degC all through, keep the insert in the cold until the last moment, and listen for it to "
        "seat; stake it only where the maker says so.",
    source="common practice, no source",
    caution="Hot castings and very cold inserts burn alike: wear gloves and a face shield, air the room, and follow the safety sheet "
            "of whatever you chill with.",
    when={"seat_insert_interference": given},
    points_at=("seat_insert_interference",),
    conforming="intake: {seat: {kind: insert, insert_interference: 0.005 in}}",
)
def seat_insert_goes_in_cold(seat_insert_interference: Length):
    """An insert pressed in warm broaches its counterbore and loses the press it was given."""
    return review()


@rule(
    scope="side",
    level="reminder",
    due="machining",
    says="Beryllium-copper seats are cut wet and with extraction: their dust harms the lungs for good.",
    fix="Cut without lapping or grinding dry, collect every chip, and read the maker's safety sheet before the first cut.",
    source="safety sheets of the metal; common practice, no source",
    caution="Breathing beryllium dust can cause lasting lung disease. Follow the maker's safety sheet and the local rules for it, or leave "
            "the work to a shop that is fitted out for it.",
    permits=False,
    when={"seat_material": given},
    points_at=("seat_material",),
    conforming="intake: {seat: {material: beryllium_copper}}",
)
def beryllium_dust_is_kept_down(seat_material: Choice):
    """The metal is harmless while it is whole; cutting and grinding make it dangerous."""
    return review() if seat_material == "beryllium_copper" else not_applicable("no beryllium in the seats")
