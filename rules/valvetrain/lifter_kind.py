"""Whether lifters, lobes and their setting are of one kind, and whether a flat cam gets the feet it was ground for."""

from buildlint.rulebook import *

HYDRAULIC = ("hydraulic_flat", "hydraulic_roller")
FLATS = ("hydraulic_flat", "solid_flat")

SET = """
lifters: {%s%s}
intake:
  %s  %s
"""


@rule(
    scope="side",
    level="error",
    due="planning",
    says="{trouble}",
    fix="Say under lifters.kind what they are, and write lash for solid or preload for hydraulic lifters, not both.",
    source="definition of the lifters",
    points_at=("lash_hot", "lash_cold", "card_lash", "lifter_preload", "lifter_preload_turns"),
    conforming=(SET % ("kind: solid_flat", "", "lash_hot: 0.020 in", ""), SET % ("kind: hydraulic_roller", ", preload: 0.040 in", "lash_hot: 0 in", "")),
    nonconforming=(SET % ("kind: hydraulic_roller", "", "lash_hot: 0.020 in", "# <-"),
                   "lifters: {kind: solid_roller, preload: 0.040 in}  # <-",
                   SET % ("", "preload: 0.040 in", "lash_cold: 0.012 in", "# <-")),
)
def hydraulic_or_solid_is_clear(
    lifter_kind: Choice = None, lash_hot: Length = None, lash_cold: Length = None, card_lash: Length = None,
    lifter_preload_largest: Length = None, lifter_preload_turns: Ratio = None,
):
    """Lash belongs to solid lifters, preload to hydraulic ones; a spec with both is two engines in one.

    A hydraulic lifter with lash clatters itself to pieces, a solid one with preload holds its valve open and burns it.
    What is meant is not guessed.
    """
    lash = next((word for word, value in (("lash_hot", lash_hot), ("lash_cold", lash_cold), ("card_lash", card_lash)) if value), None)
    preload = "lifter_preload" if lifter_preload_largest else "lifter_preload_turns" if lifter_preload_turns else None
    if lash is None and preload is None:
        return not_applicable("neither lash nor preload is written")
    if lifter_kind is None:
        if lash is None or preload is None:
            return lacking("lifter_kind")
        return require(False).at(lash, preload).telling(
            trouble="Both lash and preload are written, and nothing says whether the lifters are hydraulic or solid.")
    name = lifter_kind.replace("_", " ")
    if lifter_kind in HYDRAULIC and lash is not None:
        return require(False).at(lash).telling(trouble=f"Lash is written for {name} lifters, which run without any.")
    if lifter_kind not in HYDRAULIC and preload is not None:
        return require(False).at(preload).telling(trouble=f"Preload is written for {name} lifters, which have no plunger to take it.")
    return passes()


TYPE = """
camshaft: {grind: %s}
lifters: {kind: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The lobes are ground for {camshaft_grind} and the lifters are {lifter_kind}: {trouble}.",
    fix="Order lifters for the grind, or the cam ground for the lifters.",
    source="common practice, no source",
    when={"camshaft_grind": given, "lifter_kind": given},
    points_at=("lifter_kind",),
    conforming=TYPE % ("hydraulic_roller", "hydraulic_roller", ""),
    nonconforming=(TYPE % ("hydraulic_flat", "hydraulic_roller", "# <-"), TYPE % ("solid_roller", "solid_flat", "# <-"),
                   TYPE % ("solid_flat", "hydraulic_flat", "# <-")),
)
def lifter_type_matches_lobe(lifter_kind: Choice, camshaft_grind: Choice):
    """A flat foot on a roller lobe gouges it at the first turn; a wheel on a flat lobe is thrown off its crown.

    Hydraulic against solid is a matter of the ramp: it runs, but lash and ramp are wrong for each other.
    """
    if lifter_kind.partition("_")[2] != camshaft_grind.partition("_")[2]:
        return matches(lifter_kind, camshaft_grind).telling(trouble="they destroy each other at the first turns")
    return matches(lifter_kind, camshaft_grind, level="warning").telling(trouble="the ramp was made for another way of taking up the lash")


WORN = """
camshaft: {condition: %s}
lifters: {kind: %s, condition: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The flat cam is {camshaft_condition} and its lifters are {lifter_condition}.",
    fix="Order new lifters with a new flat cam; used ones may only go back, each to its own lobe, on the cam they ran on.",
    source="common practice, no source",
    when={"lifter_kind": FLATS, "lifter_condition": given},
    points_at=("lifter_condition",),
    conforming=(WORN % ("new", "hydraulic_flat", "new", ""), WORN % ("reused", "solid_flat", "reused_in_place", ""),
                WORN % ("new", "hydraulic_roller", "reused", "")),
    nonconforming=(WORN % ("new", "hydraulic_flat", "reused", "# <-"), WORN % ("new", "solid_flat", "reused_in_place", "# <-"),
                   WORN % ("reused", "solid_flat", "reused", "# <-")),
)
def new_flat_cam_has_new_lifters(lifter_kind: Choice, lifter_condition: Choice, camshaft_condition: Choice = None):
    """Foot and lobe wear in together and only with each other: a used foot on another lobe takes it off in minutes.

    Feet that were ground anew count as new where the maker of the cam agrees. Rollers may be moved.
    """
    if lifter_condition in ("new", "reconditioned"):
        return passes()
    if lifter_condition == "reused_in_place" and camshaft_condition is None:
        return lacking("camshaft_condition")
    return require(lifter_condition == "reused_in_place" and camshaft_condition in ("reused", "reused_in_place"))


CROWN = """
camshaft: {lobe_taper: %s}
lifters: {kind: hydraulic_flat, foot: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="A {lifter_foot} foot runs on {camshaft_lobe_taper} lobes.",
    fix="Order {foot} feet for these lobes: as one set with the cam.",
    source="common practice, no source; crown and taper as a pair: Neale, The Tribology Handbook, 2nd ed., section B10",
    when={"camshaft_lobe_taper": given, "lifter_kind": FLATS, "lifter_foot": ("crowned", "flat")},
    points_at=("lifter_foot",),
    conforming=(CROWN % ("tapered", "crowned", ""), CROWN % ("flat", "flat", "")),
    nonconforming=(CROWN % ("flat", "crowned", "# <-"), CROWN % ("tapered", "flat", "# <-")),
)
def lifter_crown_suits_lobe_taper(camshaft_lobe_taper: Choice, lifter_foot: Choice):
    """A crowned foot on a tapered lobe turns and spreads its load; either one alone stands still and fails at run-in.

    Crowns of 1500 to 2540 mm radius go with tapers of 4 to 7 minutes of arc.
    """
    foot = "crowned" if camshaft_lobe_taper == "tapered" else "flat"
    return matches(lifter_foot, foot).telling(foot=foot)
