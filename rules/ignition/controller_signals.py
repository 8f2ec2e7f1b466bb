"""Crank wheel, cam wheel and controller: do they speak of the same teeth?"""

from buildlint.rulebook import *

WHEEL = """
ignition: {trigger: {teeth: %s, missing: %s, controller_teeth: %s, controller_missing: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The trigger wheel has {trigger_teeth} positions with {trigger_missing} missing; the controller is set for {trigger_controller_teeth} "
         "with {trigger_controller_missing}.",
    fix="Take the wheel the controller is set for, or set the controller to the wheel; missing teeth count as positions.",
    source="common practice, no source",
    when={"trigger_teeth": given, "trigger_controller_teeth": given},
    points_at=("trigger_teeth", "trigger_missing"),
    conforming=WHEEL % (60, 2, 60, 2, ""),
    nonconforming=(WHEEL % (36, 1, 60, 2, "# <-"), WHEEL % (60, 2, 58, 2, "# <-"), WHEEL % (36, 1, 36, 2, "# <-")),
)
def trigger_pattern_matches_controller(
    trigger_teeth: Count, trigger_controller_teeth: Count, trigger_missing: Count = None,
    trigger_controller_missing: Count = None,
):
    """A controller that counts teeth which are not there never finds the gap, and the engine never fires.

    Sixty less two is written as 60 and 2, not as 58: the missing ones are counted as positions.
    """
    if trigger_teeth != trigger_controller_teeth:
        return matches(Count(trigger_teeth), Count(trigger_controller_teeth))
    if trigger_missing is not None and trigger_controller_missing is not None:
        return matches(Count(trigger_missing), Count(trigger_controller_missing)).at("trigger_missing")
    return passes()


CAM = """
camshaft: {sensor_teeth: %s}  %s
timing_set: {sensor_teeth_expected: 4}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The cam's sensor wheel has {camshaft_sensor_teeth} teeth; the controller expects {timing_set_sensor_teeth_expected}.",
    fix="Order cam, gear or sensor wheel with {timing_set_sensor_teeth_expected}, or a controller setup for {camshaft_sensor_teeth}.",
    source="common practice, no source",
    when={"camshaft_sensor_teeth": given, "timing_set_sensor_teeth_expected": given},
    points_at=("camshaft_sensor_teeth",),
    conforming=CAM % (4, ""),
    nonconforming=CAM % (1, "# <-"),
)
def cam_signal_matches_controller(camshaft_sensor_teeth: Count, timing_set_sensor_teeth_expected: Count):
    """Cam wheels changed within one engine family; the wrong one fires the engine half a turn out or not at all."""
    return matches(Count(camshaft_sensor_teeth), Count(timing_set_sensor_teeth_expected))


SYNC = """
build: {stage: ordering}
fuel_system: {injection: %s}
ignition: {spark_source: %s%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{what} and {lack}: the controller cannot tell the two turns of a cycle apart.",
    fix="Order a cam sensor and its target and write ignition.cam_sync: fitted; or run batch injection and sparks in pairs.",
    source="common practice, no source",
    points_at=("cam_sync", "spark_source", "fuel_injection"),
    conforming=(SYNC % ("sequential", "coil_per_cylinder", ", cam_sync: fitted", ""),
                SYNC % ("batch", "wasted_spark", ", cam_sync: none", ""),
                SYNC % ("none", "distributor", "", "")),
    nonconforming=(SYNC % ("sequential", "wasted_spark", ", cam_sync: none", "# <-"),
                   SYNC % ("batch", "coil_per_cylinder", ", cam_sync: none", "# <-"),
                   SYNC % ("sequential", "coil_per_cylinder", "", "# <-")),
)
def sequential_control_has_cam_sync(spark_source: Choice = None, fuel_injection: Choice = None, cam_sync: Choice = None):
    """Crank teeth come round twice a cycle; only the cam says which time the valve is open and which plug is due."""
    what = "Injection is sequential" if fuel_injection == "sequential" else "Each cylinder has its own coil" if spark_source == "coil_per_cylinder" else ""
    if not what:
        return not_applicable("nothing is timed to the cycle")
    if cam_sync is None:
        return wanting("cam_sync").at("spark_source", "fuel_injection").telling(
            what=what, lack="nothing is written of a cam signal").within_level("warning")
    return require(cam_sync == "fitted").telling(what=what, lack="no cam signal is fitted")
