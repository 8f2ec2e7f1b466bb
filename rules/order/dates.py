"""When parts are ordered and when they are there, held against the work that needs them."""

from datetime import timedelta

from buildlint.rulebook import *
from buildlint.tables.build_sequence import STEPS

MARK = "  # <-"
MEASURED = """
assembly:
  steps:
    - {step: check_pushrod_geometry%s}
order:
  items:
    - {item: pushrod, quantity: 16%s, ordered_on: %s}%s
"""
DONE = ", by: RM, on: 2026-04-10"


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="The {item} was ordered before the measurement it waits for.",
    fix="Compare what was ordered with what was measured, and exchange it if it differs.",
    source="common practice, no source",
    when={"ordered_on": given},
    points_at=("ordered_on", "waits_for"),
    conforming=(MEASURED % (DONE, ", waits_for: check_pushrod_geometry", "2026-04-10", ""), MEASURED % (DONE, "", "2026-04-11", ""),
                "order: {items: [{item: pushrod, quantity: 16, ordered_on: 2026-03-01}]}"),
    nonconforming=(MEASURED % (DONE, ", waits_for: check_pushrod_geometry", "2026-03-20", MARK),
                   MEASURED % ("", ", waits_for: check_pushrod_geometry", "2026-03-20", MARK), MEASURED % (DONE, "", "2026-03-20", MARK),
                   MEASURED % (DONE, ", waits_for: pushrod_day", "2026-04-20", MARK)),
)
def measured_parts_are_bought_late(
    item: Choice, ordered_on: Date, line: Count, order_lines: Entries, waits_for: Choice = None, steps_done: Entries = None,
    steps_listed: List = None, duty: Choice = None,
):
    """A pushrod bought before the geometry is known is bought twice; so is a gasket before the deck is cut.

    What waits for what is written on the line with waits_for. Pushrods wait for check_pushrod_geometry wherever that
    is on the list, unless the engine is a rebuild by the book; without waits_for that is a warning.
    """
    step = waits_for or ("check_pushrod_geometry" if item == "pushrod" and duty != "stock" and "check_pushrod_geometry" in (steps_listed or ()) else None)
    if step is None:
        return not_applicable("it waits for no measurement, as far as it is written")
    if any((row["item"], row.get("waits_for"), row.get("ordered_on")) == (item, waits_for, ordered_on) for row in order_lines[: line - 1]):
        return not_applicable("told at the first line of its kind")
    said = step.replace("_", " ")
    if step not in STEPS and step not in (steps_listed or ()):
        return require(False, "warning").at("waits_for").saying("{what}", "{how}").telling(
            what=f"The {item.replace('_', ' ')} waits for {said}, and no step has that name.", how="Name the step as it is called in assembly.steps.")
    day = (steps_done or {}).get(step)
    level = None if waits_for is not None else "warning"
    if day is None:
        return require(False, level).saying("{what}", "{how}").telling(what=f"The {item.replace('_', ' ')} was ordered on {ordered_on}, and {said}, which it waits for, is not signed yet.",
                                             how="Sign the measurement if it was taken; else stop the order while it can still be changed.")
    return require(ordered_on >= day, level).saying("{what}", "{how}").telling(
        what=f"The {item.replace('_', ' ')} was ordered on {ordered_on}, before {said} was done on {day}.",
        how="Compare what was ordered with what was measured, and exchange it if it differs.")


ARRIVAL = """
assembly:
  steps:
    - {step: head_torque, needed_on: 2025-04-14}
    - {step: sign_off, needed_on: 2025-04-30}
order:
  items:
    - {item: head_stud, quantity: 34, ordered_on: 2025-03-03, lead_time: %s, shipping_time: 5 days, check_in_time: 3 days, needed_for: head_torque}%s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="The {item} {verb} ready on {ready_on}, {distance} it is needed on {wanted_on}.",
    fix="Order it earlier, take another part, or move the step to {ready_on} or later.",
    source="arithmetic; a week of reserve is common practice, no source",
    points_at=("lead_time", "ordered_on", "arrived_on"),
    conforming=(ARRIVAL % ("21 days", ""), ARRIVAL % ("27 days", ""), """
        order:
          items:
            - {item: head_stud, quantity: 34, ordered_on: 2025-03-03, lead_time: 90 days}
        """),
    nonconforming=(ARRIVAL % ("42 days", MARK), ARRIVAL % ("28 days", MARK), """
        order:
          items:
            - {item: camshaft, quantity: 1, arrived_on: 2026-05-12, needed_by: 2026-05-10}  # <-
        """),
)
def parts_arrive_before_their_step(
    item: Choice, line: Count, wanted_on: Date = None, ready_on: Date = None, slack: Time = None, order_by: Date = None,
    arrived_on: Date = None, ordered_on: Date = None, alternative: PartNumber = None, steps_wanted_on: Entries = None,
    lead_altogether: Time = None, *, reserve: Time = q("7 days"), long: Time = q("28 days"),
):
    """The part that is a week late moves the engine by a week, and the customer by more.

    Order, maker's time, road and check-in against the day of the step or the day written on the line. Once the part
    is in the house only too late counts; the hand-over that is written moves with the late part.
    """
    if slack is None:
        return not_applicable("its days are not written")
    days = round(slack / 86400)
    late = slack < 0
    ready = "was" if arrived_on is not None else "is"
    spare = timedelta() if arrived_on is not None else timedelta(seconds=float(reserve))  # what is in the house needs none
    step_on = ready_on + spare
    if arrived_on is not None or ordered_on is not None:
        how = f"Move the step to {step_on} or later"
    else:
        how = f"Order it by {order_by - spare}, or move the step to {step_on} or later"
    if alternative is not None and arrived_on is None:
        how += f"; or take {alternative}, if it is there sooner"
    wanted = steps_wanted_on or {}
    handover = max((wanted[name] for name in ("sign_off", "store_or_ship", "first_fire") if name in wanted), default=None)
    if late and handover is not None and handover >= wanted_on:
        how += f"; the hand-over of {handover} then moves to {handover + (ready_on - wanted_on)} at the earliest"
    verdict = at_least(slack, error=Time(0.0), warning=None if arrived_on is not None else reserve)
    if lead_altogether is not None and lead_altogether >= long and alternative is None and arrived_on is None:
        how += "; name an alternative that lies on a shelf"
    apart = f"{abs(days)} day{'' if abs(days) == 1 else 's'}"
    if not late:
        verdict.saying("The {item} {verb} ready on {ready_on}, {distance} it is needed on {wanted_on}; keep {reserve}.")
    return verdict.saying(verdict.says, "{how}").telling(verb=ready, how=how + ".", distance=f"{apart} after" if late else f"{apart} before" if days else "on the very day")


LONG = """
order:
  items:
    - {item: crank, quantity: 1, ordered_on: 2026-03-01, lead_time: 60 days, needed_by: %s%s}%s
"""


@rule(
    scope="item",
    level="warning",
    due="ordering",
    says="The {item} takes {lead_altogether} to come{room}, and no other part is named that would do.",
    fix="Write alternative: a part number that fits and lies on a shelf, or give the plan more room.",
    source="common practice, no source",
    when={"lead_time": given},
    points_at=("lead_time",),
    conforming=(LONG % ("2026-05-20", "", ""), LONG % ("2026-05-05", ", alternative: hc-crank-350b", ""), LONG % ("2026-05-05", ", arrived_on: 2026-04-20", "")),
    nonconforming=(LONG % ("2026-05-10", "", MARK),),
)
def long_lead_parts_have_alternatives(
    item: Choice, lead_altogether: Time, slack: Time = None, alternative: PartNumber = None, arrived_on: Date = None, needed_for: Choice = None, *,
    long: Time = q("28 days"), room: Time = q("14 days"), tight: Time = q("7 days"),
):
    """What takes a month and is needed on the day it comes is the part the whole engine hangs on.

    Told where one to two weeks are left between arrival and need; less than that is told by itself, with the same
    advice. A part without a day to be needed on hangs on nothing.
    """
    if arrived_on is not None or alternative is not None or lead_altogether < long * (1 - 1e-9):
        return passes()
    if slack is None or slack < tight:
        return not_applicable("no day is known that it must meet" if slack is None else "told as late")
    return require(slack >= room).telling(room=f" and is ready {round(slack / 86400)} days before it is needed")
