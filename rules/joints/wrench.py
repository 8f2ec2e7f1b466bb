"""The torque wrench: its range, its adapter, its calibration."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS

RANGE = """
joints:
  head: {torque: %s, wrench: {range: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{torque} is {value} of the wrench's full scale of {wrench_range}; it reads true from {least:up} to {most:down} of it.",
    fix="Take a wrench of {range_from:up} to {range_to:down} full scale.",
    source="ISO 6789: setting wrenches are checked at 20, 60 and 100 percent of their range",
    when={"wrench_range": given, "torque": given},
    points_at=("wrench_range",),
    conforming=(RANGE % ("70 lbf-ft", "150 lbf-ft", ""), RANGE % ("70 lbf-ft", "70 lbf-ft", "")),
    nonconforming=(RANGE % ("12 lbf-ft", "150 lbf-ft", "# <-"), RANGE % ("110 lbf-ft", "100 lbf-ft", "# <-")),
)
def torque_wrench_covers_the_torque(
    torque: Torque, wrench_range: Torque, *, least: Fraction = q("0.20", "fraction"), most: Fraction = q("1.00", "fraction"),
):
    """Below a fifth of its scale a clicking wrench is off by more than it says; above the end it is being bent.

    The middle of the scale, a quarter to nine tenths, is best.
    """
    if wrench_range <= 0 or torque <= 0:
        return not_applicable("no torque or no range")
    verdict = within(Fraction(torque / wrench_range), least, most)
    return verdict.telling(range_from=Torque(torque / 0.9, torque.unit), range_to=Torque(torque / 0.25, torque.unit))


ADAPTER = """
joints:
  head: {torque: 70 lbf-ft, wrench: {arm: 18 in, adapter: %s, adapter_angle: %s%s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{trouble}",
    fix="Set the wrench to {set_to}: torque x arm / (arm + adapter x cos(angle)).",
    source="statics of the wrench",
    when={"wrench_adapter": given, "torque": given},
    points_at=("wrench_set_to", "wrench_adapter"),
    compares=("wrench_set_to",),
    conforming=(ADAPTER % ("3 in", "0 deg", ", set_to: 60 lbf-ft", ""), ADAPTER % ("3 in", "90 deg", ", set_to: 70 lbf-ft", ""),
                ADAPTER % ("0 in", "0 deg", "", "")),
    nonconforming=(ADAPTER % ("3 in", "0 deg", ", set_to: 70 lbf-ft", "# <-"), """
        build: {stage: assembly}
        joints:
          head: {torque: 70 lbf-ft, wrench: {arm: 18 in, adapter: 3 in}}  # <-
        """),
)
def wrench_setting_allows_for_adapter(
    torque: Torque, wrench_adapter: Length, wrench_set_to_computed: Torque = None, wrench_set_to_written: Torque = None,
    wrench_adapter_angle: Angle = None, *, within_share: Fraction = q("0.03", "fraction"),
):
    """A crowfoot or extension makes the wrench longer: the bolt gets more than the scale says, unless it stands at a right angle."""
    if wrench_adapter == 0:
        return not_applicable("no adapter")
    if wrench_set_to_computed is None or wrench_set_to_computed <= 0:
        return not_applicable("the wrench's arm is not written")
    set_to = Torque(wrench_set_to_computed, torque.unit)
    if wrench_set_to_written is None:
        if abs(wrench_set_to_computed - torque) <= within_share * torque:
            return passes()
        return wanting("wrench_set_to").telling(set_to=set_to,
                                                trouble="The wrench carries an adapter, and nothing is written of what it is set to.")
    verdict = matches(wrench_set_to_written, set_to, relative=within_share)
    gets = Torque(wrench_set_to_written * torque / wrench_set_to_computed, torque.unit)
    return verdict.telling(set_to=set_to, gets=gets).saying(
        "The wrench is set to {wrench_set_to_written}; with its adapter the fastener gets {gets}, not {torque}.")


CHECKED = """
joints:
  head: {torque: 70 lbf-ft, wrench: {calibrated_on: %s}}  %s
assembly: {steps: [{step: head_torque, by: RM, on: 2026-05-05}]}
"""


@rule(
    scope="joint",
    level="reminder",
    due="assembly",
    says="Look at the torque wrench's certificate{when}: {term} or 5000 clicks are its term.",
    fix="Have it checked at a fifth, three fifths and full scale, or borrow one that is; write wrench calibrated_on.",
    source="ISO 6789; the term common practice, from memory",
    when={"torque": given},
    points_at=("wrench_calibrated_on",),
    conforming=("joints: {head: {torque: 70 lbf-ft, wrench: {calibrated_on: 2026-01-10}}}", CHECKED % ("2026-01-10", "")),
    nonconforming=CHECKED % ("2024-01-10", "# <-"),
)
def torque_wrench_is_calibrated(
    torque: Torque, joint_name: Choice, wrench_calibrated_on: Date = None, steps_done: Entries = None, *, term: Time = q("366 days"),
):
    """A wrench that was dropped, or left wound up for a winter, clicks where it likes.

    Where the days of the work are written, a certificate older than its term on the last of them is a warning.
    """
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("asked of the joints an engine hangs on")
    days = [day for day in (steps_done or {}).values() if day is not None]
    if wrench_calibrated_on is not None and days and (max(days) - wrench_calibrated_on).days * 86400 > term:
        return require(False, "warning").saying(
            f"The torque wrench was last checked on {wrench_calibrated_on}, and the work went on to {max(days)}: its term is {{term}}.")
    return review().telling(when=f" of {wrench_calibrated_on}" if wrench_calibrated_on else "")
