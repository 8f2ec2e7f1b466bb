"""The order of work at the head: what must be done, measured and lying there before it is pulled down for good."""

from buildlint.rulebook import *

STEPS = """
head_gasket: {kind: multilayer_steel}
block: {dowel_holes_per_bank: 2}
assembly:
  steps:
    - {step: %s}%s
    - {step: %s}%s
    - {step: %s}%s
"""
MARK = "  # <-"


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The gasket is laid before the dowels are in.",
    fix="Put the dowels in first and check their height; the gasket hangs on them.",
    source="common practice, no source",
    when={"step": ("head_gasket",)},
    points_at=("step",),
    conforming=(STEPS % ("dowels", "", "head_gasket", "", "head_studs", ""), """
        block: {dowel_holes_per_bank: 0}
        assembly:
          steps:
            - {step: head_gasket}
            - {step: dowels}
        """),
    nonconforming=STEPS % ("head_gasket", MARK, "dowels", "", "head_on", ""),
)
def dowels_precede_the_gasket(step: Choice, earlier_steps: List, later_steps: List, block_dowel_holes_per_bank: Count = None):
    """A gasket without dowels floats by the play of its bolt holes, enough to hang its fire ring into a bore.

    Driven in afterwards, through the gasket, a dowel takes a lip of it along. A deck without dowel holes is not asked.
    """
    if block_dowel_holes_per_bank == 0:
        return not_applicable("the deck has no dowel holes")
    return require("dowels" not in later_steps or "dowels" in earlier_steps)


@rule(
    scope="step",
    level="warning",
    due="assembly",
    says="The studs are set before the multilayer gasket lies on its dowels.",
    fix="Dowels, then gasket, then studs by hand; or write why the order differs under because.",
    source="common practice, no source; many builders do it the other way round",
    when={"step": ("head_gasket",), "head_gasket_kind": ("multilayer_steel",)},
    points_at=("step",),
    conforming=(STEPS % ("dowels", "", "head_gasket", "", "head_studs", ""), """
        head_gasket: {kind: multilayer_steel}
        assembly:
          steps:
            - {step: dowels}
            - {step: head_studs}
            - {step: head_gasket, because: engine stays in the car and the head comes from above}
        """, """
        head_gasket: {kind: composite}
        assembly:
          steps:
            - {step: head_studs}
            - {step: head_gasket}
        """),
    nonconforming=STEPS % ("dowels", "", "head_studs", "", "head_gasket", MARK),
)
def gasket_precedes_the_studs(step: Choice, earlier_steps: List, step_reasons: Entries):
    """A multilayer gasket lowered over standing studs scrapes its coating and kinks its beads on the threads.

    Composite gaskets mind less. Where the head must come down over the studs the other order is right; say so, at
    the gasket or at the studs.
    """
    return require("head_studs" not in earlier_steps or "head_gasket" in step_reasons or "head_studs" in step_reasons)


CHECKS = """
assembly:
  steps:
    - {step: mock_up_head}
    - {step: %s}
    - {step: head_torque%s}%s
    - {step: %s}
"""
MEASURED_LATE = """
intake: {piston_gap: 0.105 in, piston_gap_measured_on: 2026-05-14}
assembly:
  steps:
    - {step: head_torque, by: RM, on: 2026-05-12}  # <-
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The head is torqued for good before the gaps of valve and piston are known.",
    fix="Measure valve to piston and piston to head in the mock-up, before the last torque.",
    source="common practice, no source",
    when={"step": ("head_torque",)},
    points_at=("step",),
    conforming=(CHECKS % ("check_piston_valve", "", "", "check_piston_valve"), MEASURED_LATE.replace("05-14", "05-12").replace(MARK, "")),
    nonconforming=(CHECKS % ("check_pushrod_geometry", "", MARK, "check_piston_valve"), MEASURED_LATE),
)
def clearances_precede_final_torque(
    step: Choice, earlier_steps: List, later_steps: List, on: Date = None, by: Text = None,
    intake_piston_gap_measured_on: Date = None, exhaust_piston_gap_measured_on: Date = None,
):
    """What is found too tight after the last torque costs two gaskets and the head's second trip off the engine.

    Valve to piston and piston to head are read in the mock-up. Pushrod length is often read on the finished head,
    and well so: that order is only noted, since room at the guide and the cover is then seen late.
    """
    def comes_late(check):
        return check in later_steps and check not in earlier_steps

    if comes_late("check_piston_valve"):
        return require(False).saying("{what}", "{how}").telling(what="The head is torqued for good before the gaps of valve and piston are measured.",
                                      how="Measure valve to piston and piston to head in the mock-up, on a gasket of the final thickness.")
    read = [day for day in (intake_piston_gap_measured_on, exhaust_piston_gap_measured_on) if day is not None]
    if read and on is not None and by is not None and max(read) > on:
        return require(False).at("on").saying("{what}", "{how}").telling(
            what=f"The head was torqued on {on}, and the gap of valve and piston measured on {max(read)}.",
            how="If a date is wrong, mend it; else turn the engine over by hand with clay or indicator before it ever fires.")
    if comes_late("check_pushrod_geometry"):
        return require(False, "note").saying("{what}", "{how}").telling(
            what="Pushrod geometry is read on the finished head.",
            how="Nothing to mend if room at guide, slot and cover has been seen in the mock-up.")
    return passes()


PUSHRODS = """
assembly:
  steps:
    - {step: %s}%s
    - {step: %s}%s
    - {step: %s}%s
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The {step} go in before the heads are torqued.",
    fix="Torque the heads in all steps first; then pushrods, rockers and setting.",
    source="common practice, no source",
    when={"step": ("pushrods", "rockers")},
    points_at=("step",),
    conforming=(PUSHRODS % ("head_torque", "", "pushrods", "", "rockers", ""), """
        assembly:
          steps:
            - {step: pushrods, because: the firewall leaves no room to drop them in afterwards}
            - {step: head_torque}
            - {step: rockers}
        """),
    nonconforming=(PUSHRODS % ("pushrods", MARK, "rockers", "", "head_torque", ""),
                   PUSHRODS % ("rockers", MARK, "head_torque", "", "valve_adjust", "")),
)
def heads_precede_the_pushrods(step: Choice, earlier_steps: List, later_steps: List, step_reasons: Entries):
    """A pushrod under a head that still moves holds a valve open against a piston while the bolts are drawn.

    Told once, at whichever comes first. Pushrods that must hang in their holes before the head comes down may, with
    because; rockers never before the last torque.
    """
    if "head_torque" not in later_steps or "head_torque" in earlier_steps:
        return passes()
    if step == "pushrods":
        return require(step in step_reasons)
    if "pushrods" in earlier_steps and "pushrods" not in step_reasons:
        return not_applicable("told at the pushrods")
    return require(False)
