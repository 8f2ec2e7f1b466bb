"""Load and oil film of the big ends: estimates that rank one build against another."""

from buildlint.rulebook import *

# Peak load over projected area. Textbooks give sustained figures far below; these vary from rig to rig. From memory and
# common practice.
LININGS = {
    "white_metal": q("15 MPa"), "tin_aluminum": q("40 MPa"), "silicon_aluminum": q("55 MPa"), "copper_lead_trimetal": q("75 MPa"),
    "sputter": q("100 MPa"), "polymer_on_bronze": q("100 MPa"),
}

LOAD = """
build: {rev_limit: 6500 rpm, peak_torque_speed: 4300 rpm, peak_cylinder_pressure: %s}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in, small_end_mass: 160 g, big_end_mass: 450 g}
pistons:
  mass: 400 g
  pin: {mass: 118 g}
balance: {card_rings_mass: 22 g}
bearings:
  rod: {journal_diameter: 2.1000 in, width: 0.80 in, clearance: %s, lining: %s}  %s
oiling: {grade: 10W-30}
"""


@rule(
    scope="rod_bearing",
    level="note",
    due="ordering",
    says="The big end carries {value}, more than the {limit} that {lining} linings are run to.",
    fix="A stronger lining, a wider bearing, a lighter piston or less cylinder pressure.",
    source="net of inertia at top; limits by lining from memory and common practice; sustained figures: Shigley Table 12-5",
    when={"unit_load_largest": given, "lining": tuple(LININGS)},
    points_at=("lining",),
    conforming=(LOAD % ("7.7 MPa", "0.0022 in", "copper_lead_trimetal", ""), LOAD % ("7.7 MPa", "0.0022 in", "silicon_aluminum", "")),
    nonconforming=LOAD % ("11 MPa", "0.0022 in", "silicon_aluminum", "# <-"),
)
def bearing_pressure_suits_lining(unit_load_largest: Pressure, lining: Choice, *, rows=LININGS):
    """Each lining has a load at which it begins to move or tire; above it the shells are a part to look at soon.

    Gas counts less the inertia that pulls against it, at the speed of peak torque; at the limiter inertia counts alone.
    """
    return at_most(Pressure(unit_load_largest), note=rows[lining]).telling(lining=lining.replace("_", " "))


@rule(
    scope="rod_bearing",
    level="note",
    due="ordering",
    says="The estimated oil film of the big end is {value}, below {limit}.",
    fix="Cooler or thicker oil first, the film goes with the root of the viscosity; then a wider bearing or a lighter piston. Another "
        "clearance hardly moves it.",
    source="Raimondi and Boyd, Transactions ASLE 1 (1958), 159-209, as if the load stood still; limits common practice, no source",
    when={"film_thickness": given},
    points_at=("clearance",),
    conforming=(LOAD % ("7.7 MPa", "0.0022 in", "copper_lead_trimetal", ""),),
    nonconforming=((LOAD % ("17 MPa", "0.0022 in", "copper_lead_trimetal", "# <-")).replace("grade: 10W-30", "grade: 0W-20, temperature_highest: 280 degF"),),
)
def oil_film_stays_thick_enough(
    film_thickness_smallest: Length, film_ratio_smallest: Ratio = None, *, thinnest: Length = q("0.6 um"), least_ratio: Ratio = q("1.0", "ratio"),
):
    """Between journal and shell stand one or two micrometers of oil at the worst moment; how many decides the bearing's life.

    The load is taken as if it stood still, which it never does, so the number only ranks one build against another; in a
    running engine the film is thicker, most of all under a short peak of gas pressure. Race engines on good shells live
    not far above 0.6 by this reckoning.
    """
    verdict = at_least(Length(film_thickness_smallest, "um"), note=thinnest)
    if verdict.kind == "pass" and film_ratio_smallest is not None:
        verdict = at_least(Ratio(film_ratio_smallest), note=least_ratio)
        return verdict.saying("The estimated oil film is {value} times the roughness of its faces; above {limit} they stay apart.")
    return verdict
