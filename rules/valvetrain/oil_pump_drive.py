"""What turns the oil pump, and whether its gear bears that."""

from buildlint.rulebook import *

PUMPED = """
build: {duty: %s}
oiling: {pump: {volume: %s, drive: distributor_gear}}
ignition:
  distributor: {drive_gear_material: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A {distributor_drive_gear_material} gear turns an oil pump of {pump} volume.",
    fix="Fit a standard pump, which is enough for most clearances, or a gear of iron or nitrocarburized steel if the cam gear "
        "allows it.",
    source="common practice, no source",
    when={"distributor_drive_gear_material": given},
    points_at=("distributor_drive_gear_material", "oil_pump_volume"),
    conforming=(PUMPED % ("street", "standard", "bronze", ""), PUMPED % ("street", "plus_25", "iron", ""),
                PUMPED % ("drag_race", "plus_25", "bronze", "")),
    nonconforming=(PUMPED % ("street", "plus_25", "polymer", "# <-"), PUMPED % ("street", "plus_25", "bronze", "# <-"),
                   PUMPED % ("oval_race", "plus_10", "bronze", "# <-")),
)
def drive_gear_suits_pump_load(distributor_drive_gear_material: Choice, oil_pump_volume: Choice = None, oil_pump_drive: Choice = None,
                               duty: Choice = None):
    """The gear carries the pump: a big pump on cold thick oil takes the teeth off a soft gear.

    A tenth more volume is a note, a quarter more a warning. An engine serviced by the hour gets by with it.
    """
    if distributor_drive_gear_material not in ("bronze", "polymer") or oil_pump_drive in ("crank", "belt"):
        return not_applicable("no soft gear turns the pump")
    if oil_pump_volume not in ("plus_10", "plus_25"):
        return passes()
    mild = oil_pump_volume == "plus_10" or (duty == "drag_race" and distributor_drive_gear_material == "bronze")
    return require(False, "note" if mild else "warning").telling(
        pump="a tenth more" if oil_pump_volume == "plus_10" else "a quarter more")


DRIVE = """
ignition: {spark_source: %s}
oiling:
  pump: {drive: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The oil pump is driven by the distributor's gear, and this engine has no distributor: nothing turns the pump.",
    fix="Fit a stub shaft with the gear in the distributor's hole (drive: cam_stub_shaft), or write what drives the pump.",
    source="common practice, no source",
    when={"spark_source": ("wasted_spark", "coil_per_cylinder")},
    points_at=("oil_pump_drive",),
    conforming=(DRIVE % ("coil_per_cylinder", "cam_stub_shaft", ""), DRIVE % ("coil_per_cylinder", "crank", ""),
                DRIVE % ("distributor", "distributor_gear", "")),
    nonconforming=(DRIVE % ("coil_per_cylinder", "distributor_gear", "# <-"), DRIVE % ("wasted_spark", "distributor_gear", "# <-")),
)
def oil_pump_drive_is_present(spark_source: Choice, oil_pump_drive: Choice):
    """When coils on the plugs replace the distributor, the shaft that turned the oil pump goes with it.

    The engine then fires at once and has no oil at all.
    """
    return require(oil_pump_drive != "distributor_gear")
