"""The list of work as a whole: does it hold together, and is anything of the usual way missing?"""

from buildlint.rulebook import *
from buildlint.tables.build_sequence import STEPS, circle_through, slips, steps_for

LIST = """
assembly:
  steps:
    - {step: %s}
    - {step: %s}
    - {step: %s}  %s
"""


@rule(
    scope="step",
    level="error",
    due="planning",
    says="The step {step} is out of its turn, waits for itself, or waits for a step that does not exist.",
    fix="Move it to its place, write because for another order, or mend what stands in after.",
    source="Kahn, Topological sorting of large networks, Communications of the ACM 5 (11), 1962, from memory; the order "
           "itself common practice, no source",
    points_at=("step",),
    conforming=(LIST % ("final_degree", "front_cover", "damper", ""), LIST % ("main_and_crank", "rear_seal", "flywheel", ""), """
        assembly:
          steps:
            - {step: valve_adjust}
            - {step: paint_block, after: [valve_adjust]}
        """, """
        assembly:
          steps:
            - {step: covers, because: the covers carry the only oil filler on this engine}
            - {step: prime}
        """, """
        heads: {cover_lifters: yes}
        assembly:
          steps:
            - {step: lifters}
            - {step: head_on}
        """, """
        lifters: {kind: solid_flat, foot: mushroom}
        assembly:
          steps:
            - {step: gallery_plugs}
            - {step: lifters}
            - {step: cam_bearings_and_cam}
            - {step: head_on}
        """),
    nonconforming=("""
        assembly:
          steps:
            - {step: timing_set}
            - {step: oil_pan}  # <-
            - {step: front_cover}
            - {step: damper}
        """, """
        assembly:
          steps:
            - {step: spring_bench_test}
            - {step: pre_clean}
            - {step: coat_and_mask}
            - {step: machine_heads}  # <-
        """, """
        assembly:
          steps:
            - {step: engrave, after: [paint]}  # <-
            - {step: paint, after: [engrave]}
        """, """
        assembly:
          steps:
            - {step: rockers}
            - {step: rocker_covers_trial, after: [rokers]}  # <-
        """, """
        heads: {cover_lifters: yes}
        assembly:
          steps:
            - {step: head_on}  # <-
            - {step: lifters}
        """, """
        lifters: {kind: solid_flat, foot: mushroom}
        assembly:
          steps:
            - {step: cam_bearings_and_cam}  # <-
            - {step: main_and_crank}
            - {step: lifters}
        """),
)
def build_steps_form_an_order(
    step: Choice, position: Count, steps_listed: List, step_prerequisites: Entries, step_reasons: Entries, after: List = None,
    layout: Choice = None, head_joint_kind: Choice = None, head_cover_lifters: YesNo = None,
    block_dowel_holes_per_bank: Count = None, lifter_foot: Choice = None,
):
    """A step taken before its turn is taken twice: the cover comes off again, or what it hides is never seen.

    Any order that respects what must come first is good, and there are many. Where there is a reason for another
    one, because says so and is accepted; what the spec itself asks for with after is always held. Steps with rules
    of their own (studs and gasket, cam and cover, heads and pushrods) are left to them.
    """
    table = steps_for(layout, head_joint_kind, head_cover_lifters, block_dowel_holes_per_bank, lifter_foot=lifter_foot)
    if steps_listed.index(step) != position - 1:
        return not_applicable("listed once more")
    unknown = [name for name in after or () if name not in STEPS and name not in steps_listed]
    if unknown:
        from buildlint.vocabulary import suggest

        meant = suggest(unknown[0], [*STEPS, *steps_listed])
        plainly = (meant or "").replace("{", "{{").replace("}", "}}")
        return require(False).at("after").saying(
            "{what}", (f"Write {plainly}, if that is meant; else l" if meant else "L") + "ist the step, or take it out of after.").telling(
            what=f"The step {_said(step)} is to follow {_said(unknown[0])}, and no step has that name.")
    circle = circle_through(step, table, step_prerequisites)
    if circle:
        told = min((name for name in circle if name in steps_listed and step_prerequisites.get(name)), default=step,
                   key=steps_listed.index)
        if told != step:
            return not_applicable(f"told at {_said(told)}")
        return require(False).at("after").saying("{what}", "{how}").telling(
            what=f"These steps wait for each other: {', '.join(map(_said, circle))}.",
            how="Take one of them out of an after.")
    early, late = slips(steps_listed, table, step_prerequisites, step_reasons).get(step, ((), ()))
    if early or late:
        parts = ([f"before {_listing(early)}, which must be done first"] if early else []) + (
            [f"after {_listing(late)}, which cannot be done without it"] if late else [])
        return require(False).saying("{what}", "{how}").telling(
            what=f"The step {_said(step)} is listed {' and '.join(parts)}.",
            how="Move it to its place, or write because for why this engine goes together in another order.")
    return passes()


def _said(step):
    return step.replace("_", " ")


def _listing(steps):
    names = [_said(step) for step in steps]
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]


SHORT = """
build: {duty: stock}
joints: {head: {kind: bolt}}
engine: {layout: inline}
assembly:
  steps:
"""
REBUILD = [name for name, step in steps_for("inline", "bolt", None, None, "stock").items() if step.standard]
WITHOUT_PRIMING = SHORT + "".join(f"    - {{step: {name}}}{'  # <-' if number == 1 else ''}\n" for number, name in enumerate(
    (name for name in REBUILD if name not in ("prime", "chase_threads")), 1))
UNSIGNED = """
assembly:
  steps:
    - {step: final_degree}
    - {step: front_cover, by: RM, on: 2026-05-12}  # <-
    - {step: damper, by: RM, on: 2026-05-12}
"""
USUAL_STEPS = tuple(name for name, step in STEPS.items() if step.standard)


@rule(
    scope="step",
    level="warning",
    due="planning",
    says="A usual step is missing from the list, or is not signed though work that builds on it is.",
    fix="List it where it is done, or sign it; a step that this engine does not need is listed with because.",
    source="common practice, no source",
    points_at=("step",),
    conforming=(SHORT + "".join(f"    - {{step: {name}}}\n" for name in REBUILD), """
        assembly:
          steps:
            - {step: final_degree, by: RM, on: 2026-05-11}
            - {step: front_cover, by: RM, on: 2026-05-12}
            - {step: damper}
        """, SHORT + "".join(f"    - {{step: {name}, by: RM, on: 2026-05-12}}\n" for name in REBUILD[:-6])),
    nonconforming=(UNSIGNED, WITHOUT_PRIMING, SHORT.replace("stock", "stock, stage: handover") + "".join(
        f"    - {{step: {name}, by: RM, on: 2026-05-12}}{'  # <-' if number == 1 else ''}\n" for number, name in enumerate(REBUILD[:-6], 1))),
)
def standard_steps_are_present(
    step: Choice, position: Count, steps_listed: List, steps_done: Entries, step_prerequisites: Entries, step_reasons: Entries,
    layout: Choice = None, head_joint_kind: Choice = None, head_cover_lifters: YesNo = None,
    block_dowel_holes_per_bank: Count = None, lifter_foot: Choice = None, duty: Choice = None, stage: Choice = None, *,
    usual_steps: tuple = USUAL_STEPS, least_share: Fraction = q("0.5", "fraction"),
):
    """What is not on the list is what gets forgotten on a Friday; the list is there so that nobody has to remember.

    Asked of the list as a whole, and of each signed step whether what it builds on was signed too. A list of less
    than half of the usual steps is taken for a part of the work; a list on which every step is signed is a log of what is
    done, and what comes after its last step is still to come until the engine is handed over. A step that this engine does not need is listed
    with because; what an engine leaves out by its layout, its bolts or its duty is not asked for.
    """
    table = steps_for(layout, head_joint_kind, head_cover_lifters, block_dowel_holes_per_bank, duty, "store_or_ship" in steps_listed, lifter_foot)
    if position == 1:
        usual = [name for name in usual_steps if name not in STEPS or name in table and (table[name].standard or not STEPS[name].standard)]
        if stage != "handover" and all(name in steps_done for name in steps_listed):
            furthest = max((place for place, name in enumerate(usual) if name in steps_listed), default=-1)
            usual = usual[:furthest + 1]
        missing = [name for name in usual if name not in steps_listed]
        if missing and len(usual) - len(missing) >= least_share * len(usual):
            return require(False).saying("{what}", "{how}").telling(
                what=f"{'A usual step is' if len(missing) == 1 else f'{len(missing)} usual steps are'} not on the list: "
                     f"{', '.join(map(_said, missing))}.",
                how="List each where it is done; one that this engine does not need is listed with because.")
    if step not in steps_done:
        return passes()
    unsigned = [name for name in _before(step, table, step_prerequisites)
                if name in steps_listed and name not in steps_done and name not in step_reasons
                and step == next(other for other in steps_listed
                                 if other in steps_done and name in _before(other, table, step_prerequisites))]
    if not unsigned:
        return passes()
    return require(False).at("on").saying("{what}", "{how}").telling(
        what=f"The step {_said(step)} is signed, but what it builds on is not: {_listing(unsigned)}.",
        how="Write by and on once it is certain that it was done; where nobody remembers, look again.")


def _before(name, table, own):
    return (*(table[name].requires if name in table else ()), *(own.get(name) or ()))
