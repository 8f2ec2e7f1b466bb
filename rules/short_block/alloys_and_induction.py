"""Pistons against boost and nitrous, and aluminum rods against their duty."""

from buildlint.rulebook import *

HORSEPOWER_PER_CUBIC_INCH = 745.69987158 / 16.387064e-6  # W/m3

# Boost, and power of nitrous in hp for each cubic inch, from which a class is noted, warned of, or an error.
ROWS = {
    "cast": {"boost_warning": q("35 kPa"), "boost_error": q("70 kPa"), "nitrous_warning": 0.0, "nitrous_error": 0.30},
    "hypereutectic": {"boost_warning": q("55 kPa"), "boost_error": q("100 kPa"), "nitrous_warning": 0.35, "nitrous_error": 0.45},
    "forged_4032": {"boost_note": q("100 kPa"), "nitrous_note": 0.45},
}

ALLOY = """
build: {induction: %s}
boost: {pressure: %s}
pistons: {class: %s}  %s
"""
SHOT = """
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
nitrous: {power: %s}
pistons: {class: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{name} pistons and {use}: more than they are known to stand.",
    fix="Order {better} pistons, or stay at or below {stay:down}.",
    source="common practice, no source",
    points_at=("piston_class",),
    conforming=(ALLOY % ("turbocharged", "6 psi", "hypereutectic", ""), ALLOY % ("turbocharged", "10 psi", "forged_4032", ""),
                SHOT % ("100 hp", "hypereutectic", ""), SHOT % ("400 hp", "forged_2618", "")),
    nonconforming=(ALLOY % ("turbocharged", "10 psi", "hypereutectic", "# <-"), ALLOY % ("supercharged", "16 psi", "hypereutectic", "# <-"),
                   ALLOY % ("supercharged", "6 psi", "cast", "# <-"), SHOT % ("250 hp", "hypereutectic", "# <-"),
                   SHOT % ("75 hp", "cast", "# <-"), ALLOY % ("turbocharged", "18 psi", "forged_4032", "# <-")),
)
def piston_alloy_suits_induction(
    piston_class: Choice, induction: Choice = None, boost_pressure: Pressure = None, nitrous_power: Power = None,
    displacement: Volume = None, *, rows=ROWS,
):
    """Silicon makes a piston hard, still and brittle: at the first hard knock its land is gone.

    A shot of nitrous counts by the engine's size, in horsepower for each cubic inch, since a hundred is much for a small engine
    and little for a large one. Forged low-silicon pistons have no line here; forged 4032 is noted where its makers begin to hesitate.
    """
    boosted = induction in ("supercharged", "turbocharged")
    nitrous = nitrous_power is not None and nitrous_power > 0
    if piston_class not in rows or not boosted and not nitrous:
        return not_applicable("no line for this piston and use")
    row = rows[piston_class]
    verdicts = []
    better = {"cast": "forged", "hypereutectic": "forged"}.get(piston_class, "forged 2618")
    name = piston_class.replace("_", " ")
    if boosted:
        if boost_pressure is None:
            return lacking("boost_pressure")
        verdicts.append(_tiers(Pressure(boost_pressure), row, "boost").telling(use="boost").saying(
            "{name} pistons and {value} of boost: {limit} is what they are known to stand."))
    if nitrous:
        if displacement is None or displacement <= 0:
            return lacking("displacement")
        of_the_engine = displacement * HORSEPOWER_PER_CUBIC_INCH
        verdict = _tiers(Power(nitrous_power), row, "nitrous", of_the_engine).telling(use="nitrous")
        if verdict.limit > 0:
            verdict.saying("{name} pistons and {value} of nitrous in an engine of {displacement}: {limit} is what they are known to stand at that size.")
        else:
            verdict.saying("{name} pistons and {value} of nitrous: they stand none.", "Order {better} pistons, or leave the bottle at home.")
        verdicts.append(verdict)
    worst = max(verdicts, key=lambda verdict: {None: 0, "note": 1, "warning": 2, "error": 3}[verdict.level])
    return worst.telling(name=name.capitalize(), better=better, stay=worst.limit)


def _tiers(value, row, what, size=1.0):
    """The verdict over the row's lines for boost or nitrous, held against the lowest of them: that is what the piston stands."""
    lines = {level: Amount(row[f"{what}_{level}"] * size, value.dimension) for level in ("note", "warning", "error") if f"{what}_{level}" in row}
    verdict = at_most(value, **lines)
    verdict.limit = min(lines.values())
    verdict.utilization = value / verdict.limit if verdict.limit > 0 else None
    return verdict


DUTY = """
build: {duty: %s}
rods: {material: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="Aluminum rods in {duty} duty: they grow tired with every stroke and are changed by the hour or the pass.",
    fix="Take steel rods for this duty; or write life_target and the reason under notes and have it permitted.",
    source="common practice, no source",
    when={"rod_material": ("aluminum",)},
    points_at=("rod_material",),
    conforming=DUTY % ("drag_race", "aluminum", ""),
    nonconforming=(DUTY % ("street", "aluminum", "# <-"), DUTY % ("marine", "aluminum", "# <-")),
)
def aluminum_rods_suit_the_duty(rod_material: Choice, duty: Choice):
    """Aluminum has no endurance limit: light, kind to bearings, and sure to crack some day.

    On the strip they are replaced in time. On the street, in a boat or under a trailer nobody counts; a weekend car is
    between the two and only noted.
    """
    if duty == "street_strip":
        return require(False, "note")
    return require(duty not in ("stock", "street", "marine", "towing"))


ALLOWANCES = """
build: {life_target: %s}
rods: {material: aluminum, side_clearance: 0.020 in, cam_gap: 0.075 in, pan_gap: 0.080 in, cap_dowels: %s}  %s
heads: {quench_pad: fitted}
pistons: {below_deck: 0.015 in}
head_gasket: {compressed_thickness: 0.041 in}
joints:
  rod: {retorqued: done}
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="The allowances of aluminum rods are not all made.",
    fix="Give them more gap at top, at the sides, to cam and pan, dowels for the shells, and a count of their life.",
    source="common practice, no source",
    when={"rod_material": ("aluminum",)},
    points_at=("rod_cap_dowels", "rod_material"),
    conforming=ALLOWANCES % ("200 mi", "yes", ""),
    nonconforming=(ALLOWANCES % ("200 mi", "no", "# <-"), """
        build: {life_target: 20000 mi}  # <-
        rods: {material: aluminum, side_clearance: 0.020 in, cam_gap: 0.075 in, pan_gap: 0.080 in, cap_dowels: yes}
        heads: {quench_pad: fitted}
        pistons: {below_deck: 0.015 in}
        head_gasket: {compressed_thickness: 0.041 in}
        joints:
          rod: {retorqued: done}
        """),
)
def aluminum_rod_allowances_are_made(
    rod_cap_dowels: YesNo, rod_side_clearance: Length, rod_cam_gap: Length, rod_pan_gap: Length, life_target: Length,
    quench_gap: Length = None, *, longest_life: Length = q("2000 mi"),
):
    """Aluminum rods change half the mock-up: more gap at top, at the sides, to cam and pan, dowels for the shells, a count of their life.

    The gaps themselves are judged by the rules on each of them; here it is asked whether all of them have been thought of.
    """
    if not rod_cap_dowels:
        return require(False).saying(
            "The shells of the aluminum rods are not held by a dowel.",
            "A tang alone frets loose as the housing grows; use rods and shells with a dowel, and look at its depth.")
    verdict = at_most(Length(life_target), warning=longest_life).at("life_target")
    return verdict.saying("Aluminum rods are planned for {value}.",
                          "Plan their change by passes or hours as their maker says, and keep the count with the engine.")
