"""Retainers: how near they come to the seal, and what they carry."""

from buildlint.rulebook import *

SEAL = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  retainer: {seal_gap_shut: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="At full lift {value} is left between retainer and seal; keep {limit}.",
    fix="Cut the guide or fit a lower seal by {short:up}, fit offset locks, or use less lift.",
    source="common practice, no source",
    points_at=("retainer_seal_gap_shut",),
    conforming=(SEAL % ("0.690 in", ""), SEAL % ("0.661 in", "")),
    nonconforming=(SEAL % ("0.650 in", "# <-"), SEAL % ("0.620 in", "# <-")),
)
def retainer_clears_the_seal(
    retainer_seal_gap_open: Length, retainer_seal_gap_shut: Length, *,
    warning_below: Length = q("0.060 in"), error_below: Length = q("0.030 in"),
):
    """A retainer that strikes the seal tears it off, and one that strikes the guide bends or drops the valve.

    Shops keep 0.050 to 0.060 in, some 0.100; the figure covers a ratio over nominal and a little loft. Locks that hang
    below the retainer count too.
    """
    verdict = at_least(retainer_seal_gap_open, warning=warning_below, error=error_below)
    return verdict.telling(short=Length(warning_below - retainer_seal_gap_open))


LOAD = """
build: {duty: %s}
intake:
  spring_damper: %s
  retainer: {material: %s}  %s
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Retainers of {retainer_material} carry {spring_open_load_largest} open; {limit} is as far as they are trusted.",
    fix="Order machined steel or tool-steel retainers with their locks.",
    source="common practice, no source; one published failure of a titanium retainer under a flat damper",
    points_at=("retainer_material",),
    conforming=(LOAD % ("street", "none", "stamped_steel", "", "290 lbf"), LOAD % ("street", "none", "steel", "", "460 lbf"),
                LOAD % ("drag_race", "none", "titanium", "", "850 lbf"), LOAD % ("street", "none", "tool_steel", "", "900 lbf")),
    nonconforming=(LOAD % ("street", "none", "stamped_steel", "# <-", "310 lbf"), LOAD % ("street", "none", "stamped_steel", "# <-", "396 lbf"),
                   LOAD % ("street", "none", "titanium", "# <-", "396 lbf"), LOAD % ("drag_race", "fitted", "titanium", "# <-", "600 lbf"),
                   LOAD % ("street", "none", "aluminum", "# <-", "200 lbf"), """
        build: {rev_limit: 8000 rpm}
        intake:
          retainer: {material: steel, mass: 30 g}  # <-
          spring: {open_load: 600 lbf}
        """),
)
def retainer_carries_open_load(
    retainer_material: Choice, spring_open_load_largest: Force, duty: Choice = None, life_target: Length = None,
    spring_damper: Choice = None, retainer_mass: Mass = None, rev_limit: Rpm = None, *,
    note_above={"stamped_steel": q("300 lbf"), "steel": q("700 lbf")},
    warning_above={"stamped_steel": q("345 lbf"), "steel": q("805 lbf")},
    inspected_life: Length = q("5000 mi"), light_retainer: Mass = q("25 g", "mass"), light_above: Rpm = q("7500 rpm"),
):
    """A retainer that dishes lets the locks through, and one that wears a step lets the spring walk.

    Stamped ones are for stock springs, though mild cams run on them at 290 lbf; machined steel carries most street and
    race springs, tool steel the rest. Titanium saves mass and wears: it is inspected, and a damper's edge eats it
    unless it is coated. Aluminum has no place here.
    """
    if retainer_material == "aluminum":
        return require(False).saying("Aluminum retainers pound out under any spring.")
    if retainer_material == "titanium" and spring_damper in ("fitted", "fitted_deburred"):
        return require(False).saying("An uncoated titanium retainer turns against the flat damper, which has been seen to eat through.",
                                     "Order coated titanium or steel retainers, or a spring without a damper.")
    if retainer_material in ("titanium", "titanium_coated"):
        long_life = duty not in (None, "drag_race") or (life_target is not None and life_target > inspected_life)
        return require(not long_life, level="note").saying(
            "Titanium retainers in an engine that is to last: they wear a step under the spring.",
            "Write an inspection into the hand-over sheet, or order steel retainers.")
    tiers = {"warning": warning_above.get(retainer_material), "note": note_above.get(retainer_material)}
    if tiers["warning"] is not None:
        verdict = at_most(spring_open_load_largest, **tiers)
        if verdict.kind == "fail":
            return verdict
    if retainer_mass is not None and rev_limit is not None and rev_limit > light_above:
        return at_most(retainer_mass, note=light_retainer).at("retainer_mass", "retainer_material").saying(
            "A retainer of {retainer_mass} is heavy for {rev_limit}; above {light_above} they are kept under {limit}.",
            "A lighter retainer lets the same spring follow further: tool steel or titanium.")
    return passes()
