"""Springs before they go on, and the setting of the valves after everything that moves it."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

SPRINGS = """
build: {stage: assembly}
intake:
  spring: {seat_load: %s, installed_height: 1.800 in%s}  %s
assembly:
  steps:
    - {step: heads_assembled%s}
"""
TESTED = ", tested_on: 2026-05-06"
DONE = ", by: RM, on: 2026-05-10"


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The springs go onto the head before they are measured.",
    fix="Test seat and open load of each spring at its own height, shim to the height, and write the day under spring.tested_on.",
    source="common practice, no source",
    caution=SPRING_CAUTION,
    when={"spring_seat_load": given},
    points_at=("spring_tested_on", "spring_seat_load"),
    conforming=(SPRINGS % ("130 lbf", TESTED, "", DONE),
                SPRINGS % ("{plan: 130 lbf, measured: [130 lbf, 131 lbf, 129 lbf, 130 lbf], by: RM, on: 2026-05-06}", "", "", DONE),
                "build: {stage: assembly, duty: stock}\nintake: {spring: {seat_load: 60 lbf}}\n"),
    nonconforming=(SPRINGS % ("130 lbf", "", "# <-", DONE), SPRINGS % ("130 lbf", TESTED.replace("06", "12"), "# <-", DONE),
                   SPRINGS % ("130 lbf", "", "# <-", "")),
)
def springs_are_measured_before_fitting(
    spring_seat_load: Force, spring_tested_on: Date = None, measurements: Entries = None, steps_done: Entries = None,
    side_name: Choice = None, duty: Choice = None,
):
    """A spring that is ten pounds short is found on the bench in a minute, and on the engine at its highest speed.

    Either the day of the test is written, or the loads themselves with who measured them. A rebuild by the book with
    springs as they come is asked for neither.
    """
    fitted = (steps_done or {}).get("heads_assembled")
    days = [row["on"] for row in measurements or () if row["word"] in (f"{side_name}_spring_seat_load", f"{side_name}_spring_open_load")
            and row["measured"]]
    if spring_tested_on is not None:
        days.append(spring_tested_on)
    if not days:
        if duty == "stock":
            return not_applicable("a rebuild by the book")
        verdict = require(False) if fitted is not None else wanting("spring_tested_on").within_level("warning")
        return verdict.at("spring_seat_load").saying("{what}").telling(
            what="The heads are assembled, and the springs were never measured." if fitted is not None
            else "The springs have not been measured yet.")
    day = min((day for day in days if day is not None), default=None)
    if fitted is not None and day is not None and day > fitted:
        return require(False).saying("{what}").telling(what=f"The springs were measured on {day}, and the heads assembled on {fitted}.")
    return passes()


SET = """
assembly:
  valves_adjusted_on: %s
  steps:
    - {step: %s}
    - {step: valve_adjust}%s
    - {step: %s}
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The valves are set before the heads are torqued.",
    fix="Torque the heads in full, then set lash or preload, each valve on its base circle.",
    source="common practice, no source",
    when={"step": ("valve_adjust",)},
    points_at=("step",),
    conforming=SET % ("2026-05-20", "head_torque, by: RM, on: 2026-05-20", "", "covers"),
    nonconforming=(SET % ("2026-05-20", "mock_up_head", "  # <-", "head_torque"),
                   SET % ("2026-05-18", "head_torque, by: RM, on: 2026-05-20", "  # <-", "covers")),
)
def valves_are_set_after_torque(
    step: Choice, earlier_steps: List, later_steps: List, steps_done: Entries, step_reasons: Entries,
    assembly_valves_adjusted_on: Date = None,
):
    """The head comes down a little with every pass of the wrench, and takes the lash that was set along.

    Told here only where pushrods and rockers are in order themselves.
    """
    if "head_torque" in later_steps and "head_torque" not in earlier_steps:
        if any(name in earlier_steps and name not in step_reasons for name in ("pushrods", "rockers")):
            return not_applicable("told at the pushrods")
        return require(False).saying("{what}").telling(what="The valves are set before the heads are torqued.")
    torqued = steps_done.get("head_torque")
    if assembly_valves_adjusted_on is not None and torqued is not None and assembly_valves_adjusted_on < torqued:
        return require(False).saying("{what}").telling(what=f"The valves were set on {assembly_valves_adjusted_on}, and the heads torqued on {torqued}.")
    return passes()


METHOD = """
build: {stage: assembly}
rockers: {adjustment: %s}
assembly:
  steps:
    - {step: valve_adjust}  %s
"""


@rule(
    scope="step",
    level="warning",
    due="assembly",
    says="Nothing says how the base circle is found when the valves are set.",
    fix="Write rockers.adjusted_by: exhaust_opening_intake_closing (set the intake as the exhaust opens, the exhaust as the "
        "intake closes), or top_of_firing_order.",
    source="common practice, no source",
    when={"step": ("valve_adjust",)},
    points_at=("step",),
    conforming=(METHOD % ("stud_nut, adjusted_by: exhaust_opening_intake_closing", ""), METHOD % ("none_net_lash", "")),
    nonconforming=METHOD % ("stud_nut", "# <-"),
)
def valve_setting_names_its_method(
    step: Choice, rocker_adjusted_by: Choice = None, intake_rocker_adjusted_by: Choice = None, rocker_adjustment: Choice = None,
):
    """A valve set while its lifter is on the ramp is set wrong, and long cams leave little base circle to guess with.

    A net-lash valvetrain has nothing to set and is not asked.
    """
    if rocker_adjustment == "none_net_lash":
        return not_applicable("nothing to set")
    if rocker_adjusted_by is not None or intake_rocker_adjusted_by is not None:
        return passes()
    return wanting("rocker_adjusted_by").at("step")


RETORQUED = "assembly: {retorqued_on: 2026-06-02%s}  %s"


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The heads were tightened again on {assembly_retorqued_on}, and the valves {when}.",
    fix="Set the valves once more, cold or hot as the card says, and write the day under assembly.valves_adjusted_on.",
    source="common practice, no source",
    when={"assembly_retorqued_on": given},
    points_at=("assembly_retorqued_on",),
    conforming=(RETORQUED % (", valves_adjusted_on: 2026-06-02", ""), RETORQUED.replace("assembly", "rockers: {adjustment: none_net_lash}\nassembly") % ("", "")),
    nonconforming=(RETORQUED % (", valves_adjusted_on: 2026-05-20", "# <-"), "build: {stage: handover}\n" + RETORQUED % ("", "# <-")),
)
def retorque_is_followed_by_setting(
    assembly_retorqued_on: Date, assembly_valves_adjusted_on: Date = None, rocker_adjustment: Choice = None,
):
    """A gasket that takes a turn of the wrench lets the head down, and the lash goes with it.

    The setting may be of the same day. A net-lash valvetrain is not asked.
    """
    if rocker_adjustment == "none_net_lash":
        return not_applicable("nothing to set")
    if assembly_valves_adjusted_on is None:
        return wanting("assembly_valves_adjusted_on").at("assembly_retorqued_on").telling(when="not set since, as far as it is written")
    return require(assembly_valves_adjusted_on >= assembly_retorqued_on).telling(when=f"last set on {assembly_valves_adjusted_on}")
