"""In how many steps a pattern of fasteners is tightened, and how soon it is finished."""

from buildlint.rulebook import *

PATTERNED = ("head", "main", "intake_manifold")
GASKETED = ("head", "intake_manifold")

STEPS = """
joints:
  %s: {kind: bolt, torque: %s, torque_steps: [%s]}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="Tighten the whole pattern to {steps}, then once more to the last.",
    source="factory manuals (35 and 90 lbf-ft; 45, 65, 65 and an angle); ASME PCC-1 rounds of 30, 70 and 100 percent, from memory",
    when={"torque_steps": given},
    points_at=("torque_steps",),
    conforming=(STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 50 lbf-ft, 70 lbf-ft, 70 lbf-ft", ""),
                STEPS % ("rocker", "22 lbf-ft", "22 lbf-ft", ""),
                STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 50 lbf-ft, 70 lbf-ft", "")),
    nonconforming=(STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 60 lbf-ft, 50 lbf-ft, 70 lbf-ft", "# <-"),
                   STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 50 lbf-ft, 65 lbf-ft", "# <-"),
                   STEPS % ("head", "70 lbf-ft", "70 lbf-ft", "# <-"),
                   STEPS % ("head", "110 lbf-ft", "40 lbf-ft, 110 lbf-ft", "# <-")),
)
def tightening_steps_rise(
    torque_steps: List, joint_name: Choice, torque: Torque = None, torque_source: Choice = None, angle: Angle = None,
    torque_unit_meant: Text = None, *,
    largest_step: Fraction = q("0.50", "fraction"), first_least: Fraction = q("0.25", "fraction"),
    first_most: Fraction = q("0.50", "fraction"),
):
    """A gasket is pressed evenly or not at all: every fastener a little, all round, and again.

    Three rises are usual. Two are found in factory manuals, and pass as a note where the torque is the maker's. Only
    heads, mains and manifolds are tightened in rounds; rocker, cam and damper bolts are one step. The last step is not
    stopped half way: a fastener that stands still sticks.
    """
    if torque_unit_meant is not None:
        return not_applicable("the unit of the torque is asked about")
    steps = [float(step) for step in torque_steps]
    final = float(torque) if torque is not None and angle is None else max(steps)
    shown = torque if torque is not None else torque_steps[-1]
    unit = getattr(shown, "unit", "")
    third = [Torque(round(final / _one(unit) * share) * _one(unit), unit) for share in (0.35, 0.70, 1.0)]
    facts = {"steps": third}
    unique = [step for at, step in enumerate(steps) if at == 0 or abs(step - steps[at - 1]) > 1e-6 * final]
    if unique != sorted(unique):
        return require(False).telling(trouble="The steps of tightening do not rise.", **facts)
    if abs(steps[-1] - final) > 0.01 * final:
        return require(False).telling(trouble=f"The last step is {torque_steps[-1].text}, the final torque {torque.text}.", **facts)
    if joint_name not in PATTERNED:
        return passes()
    rises = [unique[0], *(after - before for before, after in zip(unique, unique[1:]))]
    if len(unique) == 1:
        level = "warning" if torque_source == "maker" else None
        return require(False, level).telling(trouble="The whole torque is put on in one step.", **facts)
    if max(rises[1:]) > largest_step * final + 1e-9 or len(unique) == 2:
        level = "note" if torque_source == "maker" else "warning"
        return require(False, level).telling(trouble=f"From {_last_but(torque_steps, unique)} to the full torque is one step.",
                                             **facts)
    return within(Fraction(unique[0] / final), note=(first_least, first_most)).telling(**facts).saying(
        "The first step is {value} of the final torque; " + "a third is usual.")


def _one(unit):
    return q(f"1 {unit}", "torque") if unit else 1.0


def _last_but(torque_steps, unique):
    at = max(range(1, len(unique)), key=lambda number: unique[number] - unique[number - 1])
    return next(step.text for step in torque_steps if abs(float(step) - unique[at - 1]) < 1e-9)


@rule(
    scope="joint",
    level="note",
    due="assembly",
    says="The last step is not repeated as a check.",
    fix="Go round once more at {torque_steps_last}: the first ones have lost tension to the last ones.",
    source="ASME PCC-1, from memory; common practice, no source",
    when={"torque_steps": given},
    points_at=("torque_steps",),
    conforming=(STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 50 lbf-ft, 70 lbf-ft, 70 lbf-ft", ""),
                STEPS % ("rocker", "22 lbf-ft", "22 lbf-ft", ""), STEPS % ("main", "70 lbf-ft", "30 lbf-ft, 50 lbf-ft, 70 lbf-ft", "")),
    nonconforming=STEPS % ("head", "70 lbf-ft", "25 lbf-ft, 50 lbf-ft, 70 lbf-ft", "# <-"),
)
def final_pass_is_repeated(torque_steps: List, joint_name: Choice, angle: Angle = None, tightening: Choice = None):
    """On a gasket every fastener that is tightened lets its neighbors go a little; the second round finds that.

    Main caps stand each for itself, metal on metal, and are not asked for it.
    """
    if joint_name not in GASKETED or angle is not None or tightening in ("torque_angle", "yield_angle", "stretch"):
        return not_applicable("not tightened in rounds of torque")
    repeated = len(torque_steps) > 1 and abs(torque_steps[-1] - torque_steps[-2]) <= 1e-6 * torque_steps[-1]
    return require(repeated).telling(torque_steps_last=torque_steps[-1])


PROMPT = """
joints: {head: {kind: stud}}
assembly:
  steps:
    - {step: head_washers_nuts, by: RM, on: 2026-04-20}
    - {step: head_torque, by: RM, on: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The nuts went on on {begun} and the heads were torqued on {finished}: the gasket lay half pressed for {days} days.",
    fix="Take a new gasket and start again from the first step, or be sure that no fastener was past finger tight in between.",
    source="common practice, no source",
    when={"joint_name": ("head",), "steps_done": given},
    conforming=(PROMPT % ("2026-04-20", ""), PROMPT % ("2026-04-21", "")),
    nonconforming=PROMPT % ("2026-04-24", "# <-"),
)
def started_head_is_finished_promptly(joint_name: Choice, steps_done: Entries, joint_leads: YesNo = True,
                                      steps_listed: List = None, *, most_days: Count = q("1", "count")):
    """A gasket that lies half pressed overnight takes its set there, and seals nowhere when the rest is put on."""
    begun, finished = steps_done.get("head_washers_nuts"), steps_done.get("head_torque")
    if not joint_leads or begun is None or finished is None:
        return not_applicable("the days are not written")
    days = (finished - begun).days
    line = f"steps_listed_{steps_listed.index('head_torque') + 1}" if steps_listed and "head_torque" in steps_listed else "steps_listed"
    return require(days <= most_days).at(line).telling(begun=str(begun), finished=str(finished), days=str(days))
