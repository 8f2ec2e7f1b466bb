"""The row of valves along a head, as it is written: whether such a head can be."""

from buildlint.rulebook import *

ORDER = """
engine: {cylinders: %s}
heads: {valve_order: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Along the head {listed} are listed: {trouble}.",
    fix="Read the valves off the head from front to rear and write each once, i for intake and e for exhaust.",
    source="geometry",
    when={"head_valve_order": given},
    points_at=("head_valve_order",),
    conforming=(ORDER % (8, "[e, i, i, e, e, i, i, e]", ""), ORDER % (6, "[e, i, i, e, e, i, i, e, e, i, i, e]", ""),
                ORDER % (4, "[i, i, e, e, i, i, e, e, i, i, e, e, i, i, e, e]", "")),
    nonconforming=(ORDER % (8, "[e, i, i, e, e, i, e, e]", "# <-"), ORDER % (8, "[e, i, i, e, e, i, i]", "# <-"),
                   ORDER % (8, "[e, i, i, e, e, i]", "# <-")),
)
def head_has_exhaust_for_each_intake(head_valve_order: List, cylinders: Count = None):
    """Every cylinder has as many intakes as exhausts in a pushrod head, so the row has too; a slip here moves every pocket behind it.

    Siamesed ports change nothing in that, for they are counted by valves. The row must also suit the cylinders: two valves for
    each of one head, or a multiple of that. Heads with three valves for a cylinder are not known to this rule; a shop that
    builds one sets it silent.
    """
    intakes, exhausts = (sum(valve == letter for valve in head_valve_order) for letter in "ie")
    listed = f"{intakes} intake{'' if intakes == 1 else 's'} and {exhausts} exhaust{'' if exhausts == 1 else 's'}"
    if intakes != exhausts:
        return require(False).telling(listed=listed, trouble=f"{abs(intakes - exhausts)} more of one than of the other")
    fits = cylinders is None or intakes > 0 and (cylinders % intakes == 0 or intakes % cylinders == 0)
    return require(fits).telling(listed=listed, trouble=f"that suits no head of an engine with {cylinders or 0:.0f} cylinders")
