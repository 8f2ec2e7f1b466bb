"""Clean and lubricated: the last wash, threads, gasket faces, and what goes on which surface."""

from buildlint.rulebook import *
from buildlint.tables.build_sequence import cuts_metal

WASH = """
block: {last_machined_on: %s}
assembly:
  steps:
    - {step: %s}
    - {step: final_wash, by: RM, on: 2026-05-03}%s
    - {step: %s}
"""
MARK = "  # <-"


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="Something was cut after the final wash.",
    fix="Wash again after the last cut: galleries brushed, bolt holes blown out, dried and oiled at once.",
    source="common practice, no source",
    when={"step": ("final_wash",)},
    points_at=("step",),
    conforming=(WASH % ("2026-05-03", "machine_heads", "", "chase_threads"), """
        assembly:
          steps:
            - {step: final_wash}
            - {step: drill_steam_holes}
            - {step: final_wash}
            - {step: chase_threads}
        """),
    nonconforming=(WASH % ("2026-05-07", "machine_heads", MARK, "chase_threads"), WASH % ("2026-05-01", "pre_clean", MARK, "drill_steam_holes"),
                   WASH % ("2026-05-01", "pre_clean", MARK, "machine_heads")),
)
def final_wash_follows_last_machining(
    step: Choice, later_steps: List, on: Date = None, by: Text = None,
    block_last_machined_on: Date = None, block_last_washed_on: Date = None,
):
    """One hole drilled after the wash is chips in a gallery that nobody brushes again.

    Steam holes, a spot face or a deburred edge count as cuts; running a chaser through a thread does not. A step with
    a name of the shop's own counts when it begins with a word such as drill, hone or mill.
    """
    if "final_wash" in later_steps:
        return not_applicable("washed once more")
    cuts = [name for name in later_steps if cuts_metal(name)]
    if cuts:
        return require(False).saying("{what}").telling(what=f"After the final wash comes {', '.join(cuts).replace('_', ' ')}.")
    washed = max((day for day in (on if by is not None else None, block_last_washed_on) if day is not None), default=None)
    if washed is None or block_last_machined_on is None:
        return passes()
    return require(block_last_machined_on <= washed).at("on", "block_last_machined_on").saying("{what}").telling(
        what=f"The block was washed on {washed} and machined on {block_last_machined_on}.")


WASHED = "block: {last_machined_on: 2026-05-07, last_washed_on: %s}  %s"


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The block was last washed on {block_last_washed_on} and machined on {block_last_machined_on}.",
    fix="Wash again after the last cut: galleries brushed, bolt holes blown out, dried and oiled at once; then write the day.",
    source="common practice, no source",
    when={"block_last_machined_on": given, "block_last_washed_on": given},
    points_at=("block_last_washed_on",),
    conforming=(WASHED % ("2026-05-07", ""), WASHED % ("2026-05-09", ""), "build: {stage: mock_up}\n" + WASHED % ("2026-05-01", ""), """
        block: {last_machined_on: 2026-05-07, last_washed_on: 2026-05-01}
        assembly:
          steps:
            - {step: final_wash}
        """),
    nonconforming=(WASHED % ("2026-05-01", "# <-"), "build: {stage: assembly}\n" + WASHED % ("2026-05-01", "# <-")),
)
def wash_is_newer_than_machining(
    block_last_machined_on: Date, block_last_washed_on: Date, steps_listed: List = None, stage: Choice = None,
):
    """Chips and honing grit of the last cut are still in the galleries, whatever was washed before.

    Until assembly the final wash is still to come, and a block is washed for its mock-up and cut again. Asked where the spec
    lists no final wash among its steps; where it does, the rule on that step holds the days against each other.
    """
    if stage in ("planning", "ordering", "machining", "mock_up"):
        return not_applicable("the final wash is still to come")
    if "final_wash" in (steps_listed or ()):
        return not_applicable("the final wash is listed among the steps")
    return require(block_last_machined_on <= block_last_washed_on)


CHASED = """
block: {threads_cleaned_with: %s}
assembly:
  steps:
    - {step: chase_threads}
"""


@rule(
    scope="step",
    level="reminder",
    due="assembly",
    says="Threads are chased, not cut, and the blind holes blown out.",
    fix="Run a chaser by hand through every head, main and gallery hole, blow out, wipe, and count threads that are torn; then sign.",
    source="common practice, no source",
    caution="Wear eye protection, and blow holes out with the air turned well down and a rag over them: a blind hole throws back "
            "chips and solvent.",
    when={"step": ("chase_threads",)},
    points_at=("step",),
    conforming=(CHASED % "chaser", CHASED % "cutting_tap"),
)
def threads_are_chased_gently(step: Choice, block_threads_cleaned_with: Choice = None):
    """A cutting tap takes metal where a chaser only pushes dirt: the thread strips earlier, and the torque says nothing.

    Write which of the two was used under block.threads_cleaned_with; a hole that was tapped is looked at once more.
    """
    if block_threads_cleaned_with == "cutting_tap":
        return review().saying("The threads were run through with a cutting tap: look at each for thinned or torn flanks.")
    return review()


# Surface: what may be on it, and what may not be but only costs a warning. Common practice, no source.
SUITS = {
    "bearing_face": ("assembly_lube", "engine_oil"),
    "bearing_back": ("dry",),
    "cylinder_wall": ("light_oil", "engine_oil"),
    "piston_rings": ("light_oil", "engine_oil", "dry"),
    "piston_skirt": ("engine_oil", "light_oil", "assembly_lube"),
    "flat_lobe": ("moly_break_in_paste",),
    "flat_lifter_foot": ("moly_break_in_paste",),
    "roller_lifter": ("engine_oil", "assembly_lube", "light_oil"),
    "pushrod_tip": ("assembly_lube", "moly_break_in_paste", "engine_oil"),
    "rocker_tip": ("assembly_lube", "moly_break_in_paste", "engine_oil"),
    "oil_pump_gears": ("petroleum_jelly", "engine_oil", "assembly_lube", "light_oil"),
    "gasket_face": ("dry",),
}
ERRORS = {
    "bearing_face": ("dry", "heavy_grease"), "bearing_back": ("engine_oil", "assembly_lube", "moly_break_in_paste", "light_oil",
                                                              "petroleum_jelly", "heavy_grease"),
    "flat_lobe": ("engine_oil", "light_oil", "dry", "petroleum_jelly", "heavy_grease", "assembly_lube"),
    "flat_lifter_foot": ("engine_oil", "light_oil", "dry", "petroleum_jelly", "heavy_grease", "assembly_lube"),
    "cylinder_wall": ("heavy_grease",), "piston_rings": ("heavy_grease",), "piston_skirt": ("heavy_grease",),
    "oil_pump_gears": ("heavy_grease",), "pushrod_tip": ("dry",), "rocker_tip": ("dry",),
}
LUBRICANTS = """
assembly:
  lubricants:
    - {surface: bearing_face, product: assembly_lube}
    - {surface: %s, product: %s}%s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="{product} on the {surface}{others}.",
    fix="Wipe it off, and use what suits the surface.",
    source="common practice, no source; makers' instructions for shells, rings and cams win",
    when={"assembly_lubricants": given},
    conforming=tuple(LUBRICANTS % (*row, "") for row in (
        ("bearing_back", "dry"), ("cylinder_wall", "light_oil"), ("flat_lobe", "moly_break_in_paste"), ("oil_pump_gears", "petroleum_jelly"))),
    nonconforming=tuple(LUBRICANTS % (*row, MARK) for row in (
        ("bearing_back", "assembly_lube"), ("flat_lobe", "engine_oil"), ("oil_pump_gears", "heavy_grease"),
        ("cylinder_wall", "moly_break_in_paste"), ("gasket_face", "engine_oil"))),
)
def lubricant_suits_each_surface(
    assembly_lubricants: Entries, camshaft_break_in_paste: Choice = None, *, suits: dict = SUITS, errors: dict = ERRORS,
):
    """Oil behind a shell lifts it off its seat and keeps its heat in; paste on a cylinder wall keeps rings from bedding.

    Heavy grease in the oil pump blocks its relief valve. Some ring makers want their rings dry, and that passes.
    The paste of a flat cam is a rule of its own as far as the cam's own heading speaks of it.
    """
    found = []
    for row in assembly_lubricants:
        number, surface, product = row["number"], row.get("surface"), row.get("product")
        if surface not in suits or product is None or product in suits[surface]:
            continue
        if surface.startswith("flat_") and camshaft_break_in_paste == "none":
            continue
        found.append((product not in errors.get(surface, ()), number, surface, product))
    if not found:
        return passes()
    mild, number, surface, product = min(found)
    wanted = " or ".join(name.replace("_", " ") for name in suits[surface])
    others = "".join(f"; {other_product.replace('_', ' ')} on the {other.replace('_', ' ')}"
                     for _, row, other, other_product in found if row != number)
    how = "Leave it clean and dry." if suits[surface] == ("dry",) else f"Wipe it off; use {wanted}."
    return require(False, "warning" if mild else None).at(f"assembly_lubricants_{number}").saying(fix="{how}").telling(
        product=product.replace("_", " ").capitalize(), surface=surface, others=others, how=how)


CLEANED = "assembly: {faces_cleaned_with: %s}  %s"


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The gasket faces were cleaned with {assembly_faces_cleaned_with} after the last wash.",
    fix="Scrape and wipe with solvent instead; where grit has been near the engine, wash and oil it again before it turns.",
    source="common practice, no source; factory manuals warn that the grit passes the oil filter",
    when={"assembly_faces_cleaned_with": given},
    conforming=(CLEANED % ("solvent_and_cloth", ""), CLEANED % ("plastic_scraper", "")),
    nonconforming=(CLEANED % ("abrasive_pad", "# <-"), CLEANED % ("wire_wheel", "# <-")),
)
def abrasive_pads_stay_off_faces(assembly_faces_cleaned_with: Choice, *, gritty: tuple = ("abrasive_pad", "wire_wheel")):
    """A pad with silicon carbide rounds the edges of the face and leaves grit that goes through the bearings.

    Before the wash it is a matter for the gasket's finish; after it, for the bearings.
    """
    return require(assembly_faces_cleaned_with not in gritty)
