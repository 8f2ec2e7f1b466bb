"""What the spring's wire bears, and whether the spring itself starts to ring."""

from math import pi

from buildlint.rulebook import *

WIRE = """
build: {duty: %s}
intake:
  spring:
    count: 1
    open_load: %s  %s
    wire_diameter: 4.6 mm
    outside_diameter: 32.1 mm
    wire_tensile_strength: 2000 MPa
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="At full lift the wire of the {which} spring bears {stress}, {value} of its tensile strength; keep {limit}.",
    fix="Less lift, a spring of thicker or better wire, or a nest of two that share the load.",
    source="stress: EN 13906-1:2013, clause 7 and 9.5; limits engineering judgement, no source",
    when={"outer_spring_wire_tensile_strength": given},
    points_at=("spring_open_load_largest",),
    conforming=(WIRE % ("street", "293 lbf", ""), WIRE % ("drag_race", "320 lbf", "")),
    nonconforming=(WIRE % ("street", "360 lbf", "# <-"), WIRE % ("street", "320 lbf", "# <-"), WIRE % ("drag_race", "360 lbf", "# <-")),
)
def spring_stress_stays_moderate(
    outer_spring_stress_share_open_largest: Fraction, outer_spring_wire_tensile_strength: Pressure,
    inner_spring_stress_share_open_largest: Fraction = None, inner_spring_wire_tensile_strength: Pressure = None,
    innermost_spring_stress_share_open_largest: Fraction = None, innermost_spring_wire_tensile_strength: Pressure = None,
    duty: Choice = None, *,
    note_above: Fraction = q("0.60", "fraction"), warning_above: Fraction = q("0.70", "fraction"),
):
    """The inside of a coil bears the most, over and over; what it bears decides how long the spring lives.

    Corrected for curvature and held against the tensile strength of the wire. Mild street springs run at 0.59, drag
    springs at 0.62 to 0.68 and are changed as wear parts, so that in drag racing only the warning is kept. Open data
    on race wire are thin, hence no error.
    """
    share, strength, which = max(row for row in (
        (outer_spring_stress_share_open_largest, outer_spring_wire_tensile_strength, "outer"),
        (inner_spring_stress_share_open_largest, inner_spring_wire_tensile_strength, "inner"),
        (innermost_spring_stress_share_open_largest, innermost_spring_wire_tensile_strength, "innermost")) if row[0] is not None)
    note = None if duty == "drag_race" else note_above
    return at_most(share, warning=warning_above, note=note).telling(which=which, stress=Pressure(share * strength))


SOLID = """
intake:
  spring:
    count: 1
    installed_height: %s
    seat_load: 110 lbf
    solid_height: 27.60 mm
    wire_diameter: 4.6 mm
    outside_diameter: 32.1 mm
    active_coils: 4
    wire_tensile_strength: 2000 MPa  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="Squeezed solid, the wire of the {which} spring would bear {value} of its tensile strength; above {limit} it takes a set.",
    fix="Never squeeze it solid on the bench, and throw it away if it has been run into bind.",
    source="EN 13906-1:2013, 10.1.1",
    when={"outer_spring_wire_tensile_strength": given},
    points_at=("outer_spring_wire_tensile_strength",),
    conforming=SOLID % ("45.72 mm", ""),
    nonconforming=SOLID % ("50.72 mm", "# <-"),
)
def spring_survives_going_solid(
    outer_spring_stress_share_solid_largest: Fraction = None, inner_spring_stress_share_solid_largest: Fraction = None,
    innermost_spring_stress_share_solid_largest: Fraction = None, outer_spring_wire_tensile_strength: Pressure = None, *,
    note_above: Fraction = q("0.56", "fraction"),
):
    """A spring that was squeezed too hard once is shorter and weaker from then on.

    The uncorrected stress counts here, since the coil lies still while it is solid.
    """
    rows = [(share, which) for share, which in ((outer_spring_stress_share_solid_largest, "outer"), (inner_spring_stress_share_solid_largest, "inner"),
                                                (innermost_spring_stress_share_solid_largest, "innermost")) if share is not None]
    if not rows:
        return not_applicable("solid height, rate or load of the coil is not known")
    share, which = max(rows)
    return at_most(share, note=note_above).telling(which=which)


SURGE = """
build: {duty: %s, rev_limit: %s}
intake:
  spring: {form: %s, wire_diameter: 4.6 mm, outside_diameter: 32.1 mm, active_coils: 4}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="At the limiter the {which} spring rings at harmonic {value} of the cam; {limit} and more is quiet.",
    fix="It is quiet up to {speed:down}: fewer active coils, a shorter, lighter or beehive spring, a damper, a smoother lobe, or a "
        "lower limiter.",
    source="frequency: EN 13906-1:2013, 9.12; orders engineering judgement; one published pushrod spring is rated to its ninth "
           "harmonic (Rothbart, Cam Design Handbook, Fig. 16.7)",
    when={"outer_spring_active_coils": given},
    points_at=("rev_limit", "outer_spring_wire_diameter"),
    conforming=(SURGE % ("street", "8100 rpm", "cylindrical", ""), SURGE % ("drag_race", "9300 rpm", "cylindrical", ""),
                SURGE % ("street", "10500 rpm", "beehive", "")),
    nonconforming=((SURGE % ("street", "10500 rpm", "cylindrical", "")).replace("rpm}", "rpm}  # <-"),
                   (SURGE % ("street", "8500 rpm", "cylindrical", "")).replace("rpm}", "rpm}  # <-"),
                   (SURGE % ("drag_race", "11000 rpm", "cylindrical", "")).replace("rpm}", "rpm}  # <-")),
)
def spring_surge_order_is_high(
    rev_limit: Rpm, outer_spring_natural_frequency: Frequency, inner_spring_natural_frequency: Frequency = None,
    innermost_spring_natural_frequency: Frequency = None, duty: Choice = None, spring_form: Choice = None, *,
    note_below: Ratio = q("8", "ratio"), warning_below: Ratio = q("6.5", "ratio"),
    drag_note_below: Ratio = q("7", "ratio"), drag_warning_below: Ratio = q("6", "ratio"),
):
    """When a harmonic of the lobe meets the spring's own frequency, its coils run up and down and the load is gone.

    The lower the harmonic the stronger it is. Machine design asks for 13 to 20 times the forcing frequency, which no
    valve spring reaches at racing speed; a pushrod handbook settles near the ninth. Every drag spring lies between
    seven and eight, so that drag racing has its own lines. A beehive's coils do not ring together, and the formula is
    too hard on it: there it is a note.
    """
    frequency, which = min(row for row in ((outer_spring_natural_frequency, "outer"), (inner_spring_natural_frequency, "inner"),
                                           (innermost_spring_natural_frequency, "innermost")) if row[0] is not None)
    if rev_limit <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    note, warning = (drag_note_below, drag_warning_below) if duty == "drag_race" else (note_below, warning_below)
    verdict = at_least(Ratio(4 * pi * frequency / rev_limit), warning=warning, note=note)
    if spring_form in ("beehive", "conical"):
        verdict.within_level("note")
    return verdict.telling(which=which, speed=Rpm(4 * pi * frequency / note))


PAIR = """
intake:
  spring: {count: 2}
  springs:
    outer: {wire_diameter: 4.6 mm, outside_diameter: 32.1 mm, active_coils: 4}
    inner: {wire_diameter: 3.2 mm, outside_diameter: %s, active_coils: 5}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="Two coils of the nest ring at {first} and {second}, within {limit} of each other: they surge together.",
    fix="Choose an inner spring of another frequency: one coil more or less does it.",
    source="frequency: EN 13906-1:2013, 9.12; limit engineering judgement, no source",
    when={"inner_spring_active_coils": given},
    points_at=("inner_spring_active_coils",),
    conforming=PAIR % ("21.5 mm", ""),
    nonconforming=PAIR % ("23.7 mm", "# <-"),
)
def nested_springs_surge_apart(
    outer_spring_natural_frequency: Frequency, inner_spring_natural_frequency: Frequency,
    innermost_spring_natural_frequency: Frequency = None, *, apart_by: Fraction = q("0.05", "fraction"),
):
    """Coils that ring at different speeds damp each other; coils of one frequency lose their load together."""
    ringing = sorted(value for value in (outer_spring_natural_frequency, inner_spring_natural_frequency,
                                         innermost_spring_natural_frequency) if value is not None)
    if ringing[0] <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    low, high = min(zip(ringing, ringing[1:]), key=lambda pair: pair[1] / pair[0])
    return at_least(Fraction(high / low - 1), note=apart_by).telling(first=Frequency(low), second=Frequency(high))
