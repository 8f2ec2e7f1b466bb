"""One stem size for valve, guide, seal, locks and cap."""

from buildlint.rulebook import *

STEM = """
intake:
  valve: {stem_diameter: 0.3140 in}
  guide: {bore: 0.3155 in}
  seal: {stem_size: %s}  %s
"""

# Stem sizes of the trade: name, smallest and largest figure that is written for it. Common practice, no source.
SIZES = (("6 mm", q("0.2325 in"), q("0.2368 in")), ("7 mm", q("0.2725 in"), q("0.2762 in")),
         ("5/16 in", q("0.3085 in"), q("0.31275 in")), ("8 mm", q("0.31275 in"), q("0.3155 in")),
         ("11/32 in", q("0.3395 in"), q("0.3445 in")), ("3/8 in", q("0.3690 in"), q("0.3755 in")))


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The stem is {valve_stem_diameter_largest}, but the {part} is for {value}.",
    fix="Change the {part}, or whatever is still of the old stem size: guide, seal, locks, retainer and cap go together.",
    source="common practice, no source",
    conforming=(STEM % ("8 mm", ""), """
        intake:
          valve: {stem_diameter: 0.3414 in}
          guide: {bore: 0.3430 in}
          locks: {bore: 11/32 in}
          seal: {stem_size: 0.342 in}
        """),
    nonconforming=(STEM % ("0.342 in", "# <-"), """
        intake:
          valve: {stem_diameter: 0.3140 in, lash_cap: fitted, lash_cap_bore: 0.313 in}  # <-
        """, """
        intake:
          valve: {stem_diameter: 0.3125 in}
          locks: {bore: 8 mm}  # <-
        """, """
        intake:
          valve: {stem_diameter: 0.3140 in}
          guide: {bore: 0.3430 in}  # <-
        """),
)
def stem_size_matches_everywhere(
    valve_stem_diameter_largest: Length, valve_stem_diameter_smallest: Length, guide_bore_smallest: Length = None,
    guide_bore_largest: Length = None, seal_stem_size: Length = None, lock_bore: Length = None,
    valve_lash_cap_bore: Length = None, valve_lash_cap: Choice = None, *,
    same_within: Length = q("0.006 in"), tightest_guide: Length = q("0.002 in"), loosest_guide: Length = q("0.008 in"), loosest_cap: Length = q("0.010 in"),
):
    """An 8 mm conversion changes five parts, and the one that was forgotten leaks, binds or drops the valve.

    Nominal and ground sizes are written alike for one thing, so that sizes are compared by the class they belong to.
    5/16 in and 8 mm are neighbors: locks of the one hold on the other, seals and guides do not fit well; that is a note.
    """
    stem = _size(valve_stem_diameter_largest)
    for part, size, word in (("seal", seal_stem_size, "seal_stem_size"), ("set of locks", lock_bore, "lock_bore")):
        if size is None:
            continue
        other = _size(size)
        if stem is not None and other is not None:
            wrong = stem != other
        else:
            wrong = abs(size - valve_stem_diameter_largest) > same_within
        if wrong:
            neighbors = {stem, other} == {"5/16 in", "8 mm"}
            return _wrong(part, size, word, "note" if neighbors else None)
    if guide_bore_smallest is not None:
        if guide_bore_smallest < valve_stem_diameter_largest - tightest_guide:
            return _wrong("guide", guide_bore_smallest, "guide_bore_smallest")
        if guide_bore_largest - valve_stem_diameter_smallest > loosest_guide:
            return _wrong("guide", guide_bore_largest, "guide_bore_largest")
    if valve_lash_cap != "none" and valve_lash_cap_bore is not None and not (
            0 <= valve_lash_cap_bore - valve_stem_diameter_largest <= loosest_cap):
        return _wrong("lash cap", valve_lash_cap_bore, "valve_lash_cap_bore")
    return passes()


def _size(diameter):
    """The trade's name of a stem size, or None."""
    return next((name for name, least, most in SIZES if least * (1 - 1e-9) <= diameter < most), None)


def _wrong(part, size, word, level=None):
    verdict = require(False, level=level).telling(part=part).at(word)
    verdict.value = size
    return verdict
