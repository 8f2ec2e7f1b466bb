"""Bearing clearance when the block is cold and when it is hot."""

from buildlint.rulebook import *
from buildlint.tables.bearing_clearances import ROWS, row_of

COLD = """
build: {ambient_coldest: %s}
block: {material: %s}
crank: {material: forged_4340}
bearings:
  main: {journal_diameter: 2.5590 in, clearance: %s}  %s
"""


@rule(
    scope="main_bearing",
    level="error",
    due="ordering",
    says="At {ambient_coldest} the main clearance shrinks from {clearance} to {value}; keep {limit}.",
    fix="Set it {short:up} wider, or do not start below {warm_enough:up} without preheating block and oil.",
    source="thermal expansion by the table of materials; limits common practice, no source",
    when={"block_material": ("aluminum_cast", "aluminum_356_t6", "aluminum_319", "aluminum_die_cast", "aluminum_6082", "aluminum_7075", "magnesium")},
    points_at=("clearance",),
    conforming=(COLD % ("5 degF", "aluminum_356_t6", "0.0022 in", ""), COLD % ("-20 degF", "cast_iron", "0.0012 in", "")),
    nonconforming=(COLD % ("-40 degF", "aluminum_356_t6", "0.0018 in", "# <-"), COLD % ("-20 degF", "aluminum_356_t6", "0.0019 in", "# <-")),
)
def bearing_stays_free_when_cold(
    clearance: Length, clearance_cold_start: Length, ambient_coldest: Temperature, *,
    error_below: Length = q("0.0005 in"), warning_below: Length = q("0.0008 in"),
):
    """An aluminum block shrinks onto the crank in the cold; what was set tight for the heat may be nothing at all in the morning.

    Aluminum blocks are set a few tenths tighter than iron ones, which is right, as long as the coldest start is thought of.
    """
    verdict = at_least(Length(clearance_cold_start), error=error_below, warning=warning_below)
    room = 293.15
    lost = clearance - clearance_cold_start
    share = (clearance - warning_below) / lost if lost > 0 else 1.0
    return verdict.telling(short=Length(warning_below - clearance_cold_start),
                           warm_enough=Temperature(room - max(share, 0.0) * (room - ambient_coldest)))


HOT = """
build: {duty: drag_race}
block: {material: %s}
crank: {material: forged_4340}
bearings:
  main: {journal_diameter: 2.5590 in, clearance: %s}  %s
"""


@rule(
    scope="main_bearing",
    level="warning",
    due="ordering",
    says="Hot, the main clearance grows from {clearance} to {value}; above {limit} the pump cannot hold pressure.",
    fix="Set it {tighter:up} tighter cold, as aluminum blocks want, and choose the oil for the hot clearance.",
    source="thermal expansion by the table of materials; limit common practice, no source",
    points_at=("clearance",),
    conforming=(HOT % ("aluminum_356_t6", "0.0022 in", ""), HOT % ("cast_iron", "0.0028 in", "")),
    nonconforming=(HOT % ("aluminum_356_t6", "0.0036 in", "# <-"), """
        build: {duty: street, induction: turbocharged}
        block: {material: aluminum_319}
        crank: {material: forged_4340}
        bearings:
          main: {journal_diameter: 2.5590 in, clearance: 0.00345 in}  # <-
        """),
)
def hot_bearing_clearance_stays_bounded(
    clearance: Length, clearance_hot: Length, journal_diameter: Length, duty: Choice = None, oil_grade: Choice = None,
    induction: Choice = None, *, most: Ratio = q("0.0018", "ratio"),
):
    """An aluminum housing opens by two thousandths when it warms up; an iron block's clearance copied over ends up too wide.

    Taken 80 K above room temperature, housing and crank alike; steel or iron caps hold half of the growth back. A
    clearance that is too wide already when cold is reported there.
    """
    row = ROWS.get(row_of(duty, oil_grade, induction))
    if row is not None and clearance > 1.1 * row["most"] * journal_diameter:
        return not_applicable("the cold clearance is reported")
    verdict = at_most(Length(clearance_hot), warning=Length(most * journal_diameter))
    return verdict.telling(tighter=Length(clearance_hot - most * journal_diameter))
