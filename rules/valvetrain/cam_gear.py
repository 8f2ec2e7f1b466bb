"""The gear on the cam that turns distributor and oil pump: what it may mesh with."""

from buildlint.rulebook import *

WITH_DISTRIBUTOR = ("distributor", "distributor_capacitive", "magneto")
ON_THE_CAM_GEAR = ("distributor_gear", "cam_stub_shaft")

GEARS = """
camshaft: {core: %s, gear_material: %s}
ignition:
  spark_source: distributor
  distributor: {drive_gear_material: %s}  %s
"""

# What may run on a gear of iron, of austempered or induction-hardened iron, and of steel.
SUITS = {
    "iron": {"iron": "good", "pressed_iron": "good", "nitrocarburized_steel": "good", "polymer": "good", "bronze": "note",
             "hardened_steel": "warning"},
    "austempered": {"iron": "good", "pressed_iron": "good", "nitrocarburized_steel": "good", "polymer": "good",
                    "hardened_steel": "good", "bronze": "note"},
    "steel": {"bronze": "good", "polymer": "good", "nitrocarburized_steel": "good", "hardened_steel": "note", "iron": "error",
              "pressed_iron": "error"},
}


def metal_of_cam_gear(gear, core):
    """The row of SUITS for the gear on the cam, None where it is not known, "soft" for one that wears itself."""
    if gear in (None, "same_as_core"):
        if gear is None and core != "cast_iron":
            return None
        return {"cast_iron": "iron", "ductile_iron": "austempered", "induction_hardened_iron": "austempered",
                "billet_steel": "steel"}.get(core)
    return {"iron": "iron", "pressed_iron": "iron", "hardened_steel": "steel", "nitrocarburized_steel": "steel"}.get(gear, "soft")


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The distributor's gear is of {distributor_drive_gear_material} and runs on a cam gear of {cam_gear}: {trouble}.",
    fix="Change the gear on the distributor, not the cam: {cure}. The cam maker's word on the pair wins.",
    source="common practice, no source; several accounts of the trade press agree",
    points_at=("distributor_drive_gear_material", "camshaft_gear_material", "camshaft_core"),
    conforming=(GEARS % ("cast_iron", "same_as_core", "iron", ""), GEARS % ("billet_steel", "pressed_iron", "iron", ""),
                GEARS % ("billet_steel", "same_as_core", "bronze", ""), "ignition: {spark_source: coil_per_cylinder}\noiling: {pump: {drive: crank}}"),
    nonconforming=(GEARS % ("billet_steel", "same_as_core", "iron", "# <-"), GEARS % ("cast_iron", "same_as_core", "hardened_steel", "# <-")),
)
def drive_gear_suits_cam_gear(
    distributor_drive_gear_material: Choice = None, camshaft_gear_material: Choice = None, camshaft_core: Choice = None,
    spark_source: Choice = None, oil_pump_drive: Choice = None,
):
    """Two gears of the wrong metals wear to knife edges in weeks: the spark drifts and the filings go through the oil.

    What counts is the metal of the gear on the cam, not of the core: many steel cores carry a pressed iron gear. Iron
    lives with iron, with nitrocarburized steel and polymer; on steel a plain iron gear is eaten.
    """
    if distributor_drive_gear_material is None:
        if spark_source is not None and spark_source not in WITH_DISTRIBUTOR and oil_pump_drive not in (None, *ON_THE_CAM_GEAR):
            return not_applicable("nothing is driven off the cam gear")
        return lacking("distributor_drive_gear_material")
    metal = metal_of_cam_gear(camshaft_gear_material, camshaft_core)
    if metal is None:
        return lacking("camshaft_core" if camshaft_core is None else "camshaft_gear_material")
    if metal == "soft":
        return passes()
    driven = camshaft_core if distributor_drive_gear_material == "same_as_core" else distributor_drive_gear_material
    verdict = SUITS[metal].get(driven, "good")
    cures = {"iron": "iron or nitrocarburized steel", "austempered": "iron or nitrocarburized steel",
             "steel": "nitrocarburized steel, polymer, or bronze as a part that wears"}
    troubles = {"error": "the teeth are gone within weeks", "warning": "the hard gear wears the cam's",
                "note": "it holds only where the maker of the cam says so" if driven == "hardened_steel" else "it wears and is to be watched"}
    if verdict == "good":
        return passes()
    return require(False, verdict).telling(cam_gear=f"{metal} iron" if metal == "austempered" else metal,
                                           trouble=troubles[verdict], cure=cures[metal])


WEARING = """
build: {stage: handover, duty: %s}
ignition:
  distributor: {drive_gear_material: bronze%s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="handover",
    says="The bronze gear is a wear part, and {trouble}.",
    fix="Look at it after {first_look} at the latest, and change it when the teeth come to a point or bronze lies in the pan: "
        "write gear_inspection_after.",
    source="common practice, no source",
    when={"distributor_drive_gear_material": given},
    points_at=("distributor_gear_inspection_after", "distributor_drive_gear_material"),
    conforming=(WEARING % ("street", ", gear_inspection_after: 1000 mi", ""), WEARING % ("marine", ", gear_inspection_after: 40 h", "")),
    nonconforming=(WEARING % ("street", "", "# <-"), WEARING % ("street", ", gear_inspection_after: 5000 mi", "# <-")),
)
def bronze_gear_has_inspection_plan(
    distributor_drive_gear_material: Choice, distributor_gear_inspection_after: LengthOrTime = None, duty: Choice = None, *,
    first_look: Length = q("1500 mi", "length"), first_hours: Time = q("50 h"),
):
    """A bronze gear saves the cam by wearing itself; run to the end it lets go, and the oil pump stops with it.

    The first look at 1000 to 1500 miles tells how fast it goes with this pump and oil. A drag engine is apart more
    often than that.
    """
    if distributor_drive_gear_material != "bronze":
        return not_applicable("the gear is not of bronze")
    if duty == "drag_race":
        return not_applicable("a drag engine is looked into sooner")
    if distributor_gear_inspection_after is None:
        return wanting("distributor_gear_inspection_after").telling(trouble="nothing says when it is looked at").at(
            "distributor_drive_gear_material")
    limit = first_look if distributor_gear_inspection_after.dimension == "length" else first_hours
    return at_most(distributor_gear_inspection_after, limit).telling(trouble="it is looked at only after {}".format(
        distributor_gear_inspection_after.text))


@rule(
    scope="build",
    level="reminder",
    due="mock_up",
    says="Look at the mesh of the drive gear: pattern in the middle of the teeth, backlash, end play of the shaft, oil to the gear.",
    fix="Paint the teeth, turn the engine by hand, shim the shaft until the pattern is central; then sign for it.",
    source="common practice, no source",
    conforming="ignition: {spark_source: distributor}",
)
def drive_gear_mesh_is_checked(spark_source: Choice = None, oil_pump_drive: Choice = None):
    """A gear that sits too high or too low runs on the edge of its teeth, whatever it is made of.

    A decked block or a new intake moves the distributor, and so does another gear.
    """
    if spark_source in WITH_DISTRIBUTOR or oil_pump_drive in ON_THE_CAM_GEAR:
        return review()
    if spark_source is None:
        return lacking("spark_source")
    return not_applicable("nothing is driven off the cam gear")
