"""Bearing shells: their size, that both halves belong together, and how they sit."""

from buildlint.rulebook import *

WALL = """
bearings:
  main: {upper_shell_thickness: %s, lower_shell_thickness: 0.0951 in}  %s
"""


@rule(
    scope="main_bearing",
    level="note",
    due="machining",
    says="The shell's wall is written as {shown}: too coarse to work out a clearance.",
    fix="Measure at the crown with a ball micrometer and write four decimals of an inch, or three of a millimeter.",
    source="arithmetic: two walls to 0.001 in make 0.002 in of clearance",
    when={"upper_shell_thickness": given},
    points_at=("upper_shell_thickness",),
    conforming=(WALL % ("0.0951 in", ""), WALL % ("2.415 mm", "")),
    nonconforming=(WALL % ("0.095 in", "# <-"), WALL % ("2.4 mm", "# <-")),
)
def shell_wall_is_measured_finely(
    upper_shell_thickness: Length, lower_shell_thickness: Length = None, *, inch_decimals=4, millimeter_decimals=3,
):
    """A wall is subtracted twice; rounded to a thousandth it can hide the whole clearance or invent one."""
    for wall, word in ((upper_shell_thickness, "upper_shell_thickness"), (lower_shell_thickness, "lower_shell_thickness")):
        if wall is None or not wall.text:
            continue
        decimals = len(wall.text.partition(".")[2].partition(" ")[0].rstrip('"in m'))
        wanted = millimeter_decimals if wall.unit == "mm" else inch_decimals
        if wall.unit in ("in", "mm", '"') and decimals < wanted:
            return require(False).telling(shown=wall.text).at(word)
    return passes()


GRIND = """
bearings:
  %s: {standard_journal_diameter: 2.4480 in, journal_diameter: %s, undersize: %s}  %s
"""
GRIND_SAYS = "The journal is ground {value} under standard, but the shells are for {undersize}."
GRIND_FIX = "Order shells of {nearest} undersize, or look whether the crank was ground to another step."
GRIND_SOURCE = "arithmetic; tolerance common practice, no source"


@rule(
    scope="main_bearing",
    level="error",
    due="ordering",
    says=GRIND_SAYS,
    fix=GRIND_FIX,
    source=GRIND_SOURCE,
    when={"undersize": given},
    points_at=("undersize", "journal_diameter"),
    conforming=(GRIND % ("main", "2.4380 in", "0.010 in", ""), GRIND % ("main", "2.4478 in", "0 in", "")),
    nonconforming=(GRIND % ("main", "2.4380 in", "0 in", "# <-"), GRIND % ("main", "2.4480 in", "0.010 in", "# <-")),
)
def shell_undersize_matches_journal_grind(
    undersize: Length, standard_journal_diameter: Length, journal_diameter: Length, *, within_of: Length = q("0.0015 in"),
):
    """Shells of another undersize leave a gap of ten thousandths, or no gap at all.

    A thousandth and a half covers the tolerance of the grind and of the drawing.
    """
    return _grind(undersize, standard_journal_diameter, journal_diameter, within_of)


@rule(
    scope="rod_bearing",
    level="error",
    due="ordering",
    says=GRIND_SAYS,
    fix=GRIND_FIX,
    source=GRIND_SOURCE,
    when={"undersize": given},
    points_at=("undersize", "journal_diameter"),
    conforming=GRIND % ("rod", "2.4379 in", "0.010 in", ""),
    nonconforming=GRIND % ("rod", "2.4280 in", "0.010 in", "# <-"),
)
def rod_shell_undersize_matches_grind(
    undersize: Length, standard_journal_diameter: Length, journal_diameter: Length, *, within_of: Length = q("0.0015 in"),
):
    """Pins and mains are often ground to different steps; the shells of one do not tell those of the other."""
    return _grind(undersize, standard_journal_diameter, journal_diameter, within_of)


def _grind(undersize, standard, journal, tolerance):
    ground = standard - journal
    verdict = at_most(Length(abs(ground - undersize)), tolerance)
    steps = round(ground / STEP) * STEP
    verdict.comparing(Length(ground), Length(undersize))
    return verdict.telling(nearest=Length(max(steps, 0.0)))


STEP = q("0.010 in")

SERIES = """
bearings:
  %s: {upper_shell_series: hc-mb-248, lower_shell_series: %s, upper_shell_thickness: 0.0951 in, lower_shell_thickness: %s}  %s
"""
SERIES_FIX = "Fit both halves of one series; to change a clearance by half a thousandth mix halves of the next size of that series."
SERIES_SOURCE = "shop practice seen in instructions; no standard"


@rule(
    scope="main_bearing",
    level="error",
    due="ordering",
    says="The shells of one journal do not belong together: {trouble}.",
    fix=SERIES_FIX,
    source=SERIES_SOURCE,
    when={"upper_shell_series": given},
    points_at=("lower_shell_series", "upper_shell_series"),
    conforming=(SERIES % ("main", "hc-mb-248", "0.0951 in", ""), SERIES % ("main", "hc-mb-248", "0.0956 in", "")),
    nonconforming=(SERIES % ("main", "hc-mb-311", "0.0951 in", "# <-"), SERIES % ("main", "hc-mb-248", "0.0961 in", "# <-")),
)
def bearing_shells_are_one_series(
    upper_shell_series: PartNumber, lower_shell_series: PartNumber = None, upper_shell_thickness: Length = None,
    lower_shell_thickness: Length = None, *, walls_within: Length = q("0.0005 in"),
):
    """Halves of two series have different steel, crush and eccentricity; one of them is loose in its housing.

    Mixing halves of one series whose sets are a thousandth apart is common and sound: their walls differ by half of it.
    """
    return _series(upper_shell_series, lower_shell_series, upper_shell_thickness, lower_shell_thickness, walls_within)


@rule(
    scope="rod_bearing",
    level="error",
    due="ordering",
    says="The shells of one rod do not belong together: {trouble}.",
    fix=SERIES_FIX,
    source=SERIES_SOURCE,
    when={"upper_shell_series": given},
    points_at=("lower_shell_series", "upper_shell_series"),
    conforming=SERIES % ("rod", "hc-mb-248", "0.0956 in", ""),
    nonconforming=SERIES % ("rod", "hc-rb-210", "0.0951 in", "# <-"),
)
def rod_shells_are_one_series(
    upper_shell_series: PartNumber, lower_shell_series: PartNumber = None, upper_shell_thickness: Length = None,
    lower_shell_thickness: Length = None, *, walls_within: Length = q("0.0005 in"),
):
    """As with the mains: one series, and at most half a step between the halves."""
    return _series(upper_shell_series, lower_shell_series, upper_shell_thickness, lower_shell_thickness, walls_within)


def _series(upper, lower, upper_wall, lower_wall, walls_within):
    if lower is not None and upper != lower:
        return require(False).telling(trouble=f"{upper} above, {lower} below")
    if upper_wall is None or lower_wall is None:
        return passes()
    verdict = at_most(Length(abs(upper_wall - lower_wall)), walls_within)
    return verdict.telling(trouble="their walls differ by more than half an undersize step")


THICK = """
bearings:
  %s: {upper_shell_thickness: %s, lower_shell_thickness: %s}  %s
"""
THICK_SOURCE = "common practice, no source"


@rule(
    scope="rod_bearing",
    level="warning",
    due="assembly",
    says="The thicker half of the rod's shells lies in the cap.",
    fix="Change the halves: in a rod the thicker one goes up, into the rod, where gas pushes.",
    source=THICK_SOURCE,
    when={"upper_shell_thickness": given, "lower_shell_thickness": given},
    points_at=("lower_shell_thickness",),
    conforming=(THICK % ("rod", "0.0632 in", "0.0627 in", ""), THICK % ("rod", "0.0627 in", "0.0627 in", "")),
    nonconforming=THICK % ("rod", "0.0627 in", "0.0632 in", "# <-"),
)
def thick_shell_sits_on_loaded_side(
    upper_shell_thickness: Length, lower_shell_thickness: Length, *, same_within: Length = q("0.0001 in"),
):
    """Mixed halves go with the thick one on the loaded side, so that the journal's middle stays where it was."""
    return at_most(Length(lower_shell_thickness - upper_shell_thickness), warning=same_within)


@rule(
    scope="main_bearing",
    level="warning",
    due="assembly",
    says="The thicker half of the main shells lies in the block.",
    fix="Change the halves: in a main the thicker one goes down, into the cap.",
    source=THICK_SOURCE,
    when={"upper_shell_thickness": given, "lower_shell_thickness": given},
    points_at=("upper_shell_thickness",),
    conforming=THICK % ("main", "0.0951 in", "0.0956 in", ""),
    nonconforming=THICK % ("main", "0.0956 in", "0.0951 in", "# <-"),
)
def thick_main_shell_sits_in_cap(
    upper_shell_thickness: Length, lower_shell_thickness: Length, *, same_within: Length = q("0.0001 in"),
):
    """The cap carries the load of the mains; the thick half belongs there."""
    return at_most(Length(upper_shell_thickness - lower_shell_thickness), warning=same_within)


CRUSH = """
rods: {material: %s}
bearings:
  rod: {crush_height: %s, housing_bore: 2.2250 in, upper_shell_thickness: 0.0591 in}  %s
"""


@rule(
    scope="rod_bearing",
    level="warning",
    due="machining",
    says="The shells sit with {value}{when_hot} in their housing; {limit} is wanted.",
    fix="Hone the housing to its low limit, and look whether the shells are of this housing's series. Never file a cap.",
    source="thin ring; crush height as in ISO 3548 (from memory); band common practice, no source; caps and shells are not filed: US Army "
           "TM 5-3805-255-14",
    when={"crush_height": given},
    points_at=("crush_height",),
    conforming=(CRUSH % ("steel", "0.002 in", ""), CRUSH % ("steel", "0.0015 in", "")),
    nonconforming=(CRUSH % ("steel", "0.0008 in", "# <-"), CRUSH % ("steel", "0.0060 in", "# <-"), CRUSH % ("aluminum", "0.0010 in", "# <-")),
)
def shell_crush_holds_bearing(
    shell_seating_pressure: Pressure, shell_seating_pressure_hot: Pressure = None, rod_material: Choice = None, *,
    least: Pressure = q("3 MPa"), least_in_aluminum: Pressure = q("5 MPa"), most: Pressure = q("15 MPa"), least_hot: Pressure = q("2 MPa"),
):
    """Crush is what holds a shell; the tang only keeps it in place while the cap goes on.

    Too little and it spins, too much and it buckles at the parting line. An aluminum rod grows away from its steel shell
    and needs more of it, and a dowel.
    """
    low = least_in_aluminum if rod_material == "aluminum" else least
    verdict = within(Pressure(shell_seating_pressure), warning=(low, most))
    if verdict.kind == "fail":
        return verdict.telling(when_hot="").saying(fix=None if verdict.facts.get("side") == "below" else
                                                   "Hone the housing up toward its high limit; never file the shells.")
    if shell_seating_pressure_hot is None:
        return verdict
    verdict = at_least(Pressure(shell_seating_pressure_hot), warning=least_hot)
    return verdict.telling(when_hot=" when 80 K warmer")
