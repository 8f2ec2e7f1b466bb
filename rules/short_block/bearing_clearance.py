"""Oil clearance of mains and rods: against the journal's size and duty, and against the parts it is made of."""

from buildlint.rulebook import *
from buildlint.tables.bearing_clearances import ROWS, row_of

MAIN = """
build: {duty: %s}
bearings:
  main: {journal_diameter: 2.4480 in, clearance: %s}  %s
"""

FIX = ("Aim for {aim}: {shells}. Measure housing, shells and journal first, at one temperature; a journal is not polished "
       "to size.")
SOURCE = "common practice, no source; 0.001 in for each inch of journal, more for racing"


@rule(
    scope="main_bearing",
    level="error",
    due="machining",
    says="The main clearance is {value}, {side} {limit}; a {journal_diameter} journal in {duty} duty runs at {least:up} to {most:down}.",
    fix=FIX,
    source=SOURCE,
    points_at=("clearance",),
    conforming=(MAIN % ("street_strip", "0.0024 in", ""), MAIN % ("stock", "0.0016 in", ""), MAIN % ("street", "0.0029 in", ""), """
        build: {duty: drag_race}
        oiling: {grade: 5W-20}
        bearings:
          main: {journal_diameter: 2.4480 in, clearance: 0.0019 in}
        """),
    nonconforming=(MAIN % ("street_strip", "0.0008 in", "# <-"), MAIN % ("street_strip", "0.0046 in", "# <-"),
                   MAIN % ("street_strip", "0.0017 in", "# <-"), MAIN % ("street_strip", "0.0035 in", "# <-"),
                   MAIN % ("street", "0.0017 in", "# <-"), """
        build: {duty: street}
        bearings:
          main:
            journal_diameter: 2.4480 in
            clearance: [0.0024 in, 0.0025 in, 0.0008 in, 0.0024 in, 0.0025 in]  # <-
        """),
)
def main_clearance_suits_journal(
    clearance: Length, journal_diameter: Length, duty: Choice, oil_grade: Choice = None, clearance_hot: Length = None, induction: Choice = None, *,
    rows=ROWS, error_ratio_below: Ratio = q("0.0004", "ratio"), error_ratio_above: Ratio = q("0.0018", "ratio"),
    error_below: Length = q("0.020 mm"), error_above: Length = q("0.127 mm"), warning_below: Length = q("0.030 mm"),
    warning_beyond_row: Fraction = q("0.10", "fraction"),
):
    """Too tight and the journal picks up the shell, too loose and the pump cannot hold pressure at hot idle.

    Clearance grows with the journal and with the duty. Some test programs find 0.0020 to 0.0025 in best for every
    journal of two to two and a half inches, others run less with thin oil; so just outside the row is a note, ten
    percent outside a warning. In an aluminum block the cold figure is set toward the tight end, since it grows.
    """
    row = row_of(duty, oil_grade, induction)
    return _judge(clearance, journal_diameter, duty, rows[row], 0.0, clearance_hot, error_ratio_below, error_ratio_above,
                  error_below, error_above, warning_below, warning_beyond_row)


ROD = """
build: {duty: %s, rev_limit: %s}
bearings:
  rod: {journal_diameter: 2.1000 in, clearance: %s}  %s
"""


@rule(
    scope="rod_bearing",
    level="error",
    due="machining",
    says="The rod clearance is {value}, {side} {limit}; a {journal_diameter} journal in {duty} duty runs at {least:up} to {most:down}.",
    fix=FIX,
    source=SOURCE,
    points_at=("clearance",),
    conforming=(ROD % ("street, induction: turbocharged", "6500 rpm", "0.0026 in", ""), ROD % ("street_strip", "6500 rpm", "0.0022 in", ""), ROD % ("drag_race", "8500 rpm", "0.0032 in", "")),
    nonconforming=(ROD % ("street_strip", "6500 rpm", "0.0007 in", "# <-"), ROD % ("drag_race", "8500 rpm", "0.0042 in", "# <-"),
                   ROD % ("street_strip", "6500 rpm", "0.0030 in", "# <-"), ROD % ("stock", "5000 rpm", "0.0012 in", "# <-")),
)
def rod_clearance_suits_journal(
    clearance: Length, journal_diameter: Length, duty: Choice, rev_limit: Rpm = None, oil_grade: Choice = None, induction: Choice = None, *,
    rows=ROWS, error_ratio_below: Ratio = q("0.0004", "ratio"), error_ratio_above: Ratio = q("0.0018", "ratio"),
    error_below: Length = q("0.020 mm"), error_above: Length = q("0.127 mm"), warning_below: Length = q("0.030 mm"),
    warning_beyond_row: Fraction = q("0.10", "fraction"), more_when_fast: Length = q("0.013 mm"),
    fast_above: Rpm = q("7000 rpm"),
):
    """The big end is loaded hardest and cooled by nothing but its own oil; its clearance makes the flow that carries heat away.

    Above 7000 rpm half a thousandth more is usual, since rod and cap go out of round at top. The rows are those of the
    mains, with the same tolerance for the disagreement among builders.
    """
    more = more_when_fast if rev_limit is not None and rev_limit > fast_above else 0.0
    return _judge(clearance, journal_diameter, duty, rows[row_of(duty, oil_grade, induction)], more, None, error_ratio_below,
                  error_ratio_above, error_below, error_above, warning_below, warning_beyond_row)


def _judge(clearance, journal, duty, row, more, hot, error_ratio_below, error_ratio_above, error_below, error_above,
           warning_below, beyond):
    least, aim, most = row["least"] * journal, row["aim"] * journal + more, row["most"] * journal + more
    if hot is not None and hot > clearance:
        aim = max(least, aim - (hot - clearance))
    lowest, highest = max(error_ratio_below * journal, error_below), min(error_ratio_above * journal, error_above)
    low = max(lowest, least * (1 - beyond), 0.0 if duty == "stock" else warning_below)
    verdict = within(Length(clearance), error=(Length(lowest), Length(highest)),
                     warning=(Length(min(low, least)), Length(min(highest, most * (1 + beyond)))),
                     note=(Length(least), Length(most)))
    return verdict.telling(least=Length(least), most=Length(most), aim=Length(aim), shells=_shells(aim - clearance))


HALF_STEP = q("0.0005 in")  # what one half shell of the next size changes


def _shells(change):
    """Which shells come closest to a change of clearance."""
    halves = round(abs(change) / HALF_STEP)
    thinner = "thinner" if change > 0 else "thicker"
    if halves == 0:
        return "no shell comes closer, the rest is a matter of housing and journal"
    if halves == 1:
        return f"fit one half shell of a set that is 0.001 in (0.025 mm) {thinner} on the diameter"
    if halves == 2:
        return f"fit a set of shells 0.001 in (0.025 mm) {thinner} on the diameter"
    if halves == 3:
        return f"a set of shells 0.001 in (0.025 mm) {thinner} on the diameter comes nearest, housing and journal give the rest"
    return "no shells of this size come near it; it takes another grind of the journal, or one of the parts is wrong"


PARTS = """
bearings:
  %s:
    housing_bore: 2.6411 in
    upper_shell_thickness: 0.0951 in
    lower_shell_thickness: 0.0951 in
    journal_diameter: 2.4484 in
    clearance: %s  %s
"""
GROUND = """
bearings:
  %s:
    housing_bore: 2.6411 in
    upper_shell_thickness: 0.0951 in
    lower_shell_thickness: 0.0951 in
    standard_journal_diameter: 2.4484 in
    journal_diameter: 2.4384 in
    undersize: 0 in
    clearance: %s  %s
"""
MATCH_SAYS = ("The clearance is written as {clearance_written}, but housing, shells and journal leave {clearance_computed}"
              "{cause}.")
MATCH_FIX = ("Measure again: shell walls with a ball micrometer to 0.0001 in, the housing torqued and without shells; and look "
             "whether the undersize on the shells belongs to the grind.")


@rule(
    scope="main_bearing",
    level="error",
    due="machining",
    says=MATCH_SAYS,
    fix=MATCH_FIX,
    source="arithmetic; limits common practice, no source",
    when={"clearance_computed": given},
    compares=("clearance",),
    points_at=("clearance_written",),
    conforming=(PARTS % ("main", "0.0025 in", ""), PARTS % ("main", "0.0021 in", ""), GROUND % ("main", "0.0025 in", "")),
    nonconforming=(PARTS % ("main", "0.0032 in", "# <-"), PARTS % ("main", "0.0040 in", "# <-"), GROUND % ("main", "0.0035 in", "# <-"), """
        bearings:
          main:
            housing_bore: 2.6410 in
            upper_shell_thickness: 0.097 in
            lower_shell_thickness: 0.097 in
            journal_diameter: 2.45 in
            clearance: 0.0025 in  # <-
        """),
)
def main_clearance_matches_parts(
    clearance_written: Length, clearance_computed: Length, undersize: Length = None, standard_journal_diameter: Length = None,
    journal_diameter: Length = None, *, warning_beyond: Length = q("0.0005 in"), error_beyond: Length = q("0.0010 in"),
    shells_speak_beyond: Length = q("0.0015 in"),
):
    """A clearance that its own parts contradict was measured wrong, or one of the parts is of another size.

    Half a thousandth is what three measurements add up to. A gap at or below nothing usually comes from a shell wall
    or a journal that was rounded on the way to the sheet. Where the shells are for another grind than the crank's, and that
    is the whole of the difference, the rule on their undersize tells it and this one is quiet.
    """
    if _other_shells(clearance_computed - clearance_written, undersize, standard_journal_diameter, journal_diameter, warning_beyond,
                     shells_speak_beyond):
        return not_applicable("the shells are for another grind, which is told of them")
    return _compare(clearance_written, clearance_computed, warning_beyond, error_beyond)


@rule(
    scope="rod_bearing",
    level="error",
    due="machining",
    says=MATCH_SAYS,
    fix=MATCH_FIX,
    source="arithmetic; limits common practice, no source",
    when={"clearance_computed": given},
    compares=("clearance",),
    points_at=("clearance_written",),
    conforming=(PARTS % ("rod", "0.0027 in", ""), GROUND % ("rod", "0.0025 in", "")),
    nonconforming=(PARTS % ("rod", "0.0018 in", "# <-"), PARTS % ("rod", "0.0010 in", "# <-")),
)
def rod_clearance_matches_parts(
    clearance_written: Length, clearance_computed: Length, undersize: Length = None, standard_journal_diameter: Length = None,
    journal_diameter: Length = None, *, warning_beyond: Length = q("0.0005 in"), error_beyond: Length = q("0.0010 in"),
    shells_speak_beyond: Length = q("0.0015 in"),
):
    """As with the mains: a written clearance and the parts it is made of are two views of one gap.

    The crush of the shells opens a rod by a tenth or two of a thousandth; where crush and housing are written, that is
    counted in.
    """
    if _other_shells(clearance_computed - clearance_written, undersize, standard_journal_diameter, journal_diameter, warning_beyond,
                     shells_speak_beyond):
        return not_applicable("the shells are for another grind, which is told of them")
    return _compare(clearance_written, clearance_computed, warning_beyond, error_beyond)


def _other_shells(gap, undersize, standard, journal, within_of, beyond):
    """Whether shells of another undersize than the grind are all that parts the written clearance from the computed one."""
    if None in (undersize, standard, journal):
        return False
    step = standard - journal - undersize
    return abs(step) > beyond and abs(gap - step) <= within_of


def _compare(written, computed, warning_beyond, error_beyond):
    verdict = at_most(Length(abs(written - computed)), warning=warning_beyond, error=error_beyond)
    if computed <= 0 and verdict.kind == "fail":
        verdict.level = "error"
    cause = ", no gap at all: a wall or a journal was rounded or mistyped" if computed <= 0 else ""
    verdict.comparing(Length(written), Length(computed))
    return verdict.telling(cause=cause)


EVEN = """
bearings:
  main: {clearance: %s}  %s
  rod: {clearance: %s}
"""


@rule(
    scope="build",
    level="note",
    due="machining",
    says="{trouble} differ by {value}; within {limit} is usual.",
    fix="Move shells between the journals, or mix halves of the next size where one stands out; measure that one again first.",
    source="common practice, no source",
    points_at=("main_bearing_clearance", "rod_bearing_clearance"),
    conforming=(EVEN % ("[0.0024 in, 0.0026 in, 0.0025 in, 0.0025 in, 0.0024 in]", "", "0.0022 in"),
                EVEN % ("0.0025 in", "", "0.0022 in")),
    nonconforming=(EVEN % ("[0.0024 in, 0.0031 in, 0.0025 in, 0.0025 in, 0.0024 in]", "# <-", "0.0022 in"),
                   EVEN % ("0.0034 in", "# <-", "0.0022 in")),
)
def bearing_clearances_are_even(
    main_bearing_clearance_spread: Length = None, rod_bearing_clearance_spread: Length = None,
    main_bearing_clearance_largest: Length = None, rod_bearing_clearance_largest: Length = None, *,
    spread: Length = q("0.0005 in"), apart: Length = q("0.0010 in"),
):
    """The loosest bearing takes the oil that the others should have; the odd one out is often a measurement.

    Half a thousandth over one shaft is good work; a thousandth between mains and rods changes which of them the oil
    is chosen for.
    """
    candidates = [(main_bearing_clearance_spread, spread, "Main clearances"),
                  (rod_bearing_clearance_spread, spread, "Rod clearances")]
    if main_bearing_clearance_largest is not None and rod_bearing_clearance_largest is not None:
        candidates.append((abs(main_bearing_clearance_largest - rod_bearing_clearance_largest), apart, "Mains and rods"))
    known = [(value, limit, text) for value, limit, text in candidates if value is not None]
    if not known:
        return lacking("main_bearing_clearance", "rod_bearing_clearance")
    value, limit, text = max(known, key=lambda row: row[0] / row[1])
    return at_most(Length(value), limit).telling(trouble=text)
