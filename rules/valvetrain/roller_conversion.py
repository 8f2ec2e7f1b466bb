"""Rollers in a block that was made for flat lifters: everything that has to change with them."""

from buildlint.rulebook import *

FLATS = ("hydraulic_flat", "solid_flat")
ROLLERS = ("hydraulic_roller", "solid_roller")

CONVERTED = """
build: {stage: ordering}
block: {built_for_lifters: [hydraulic_flat]}
camshaft: {grind: hydraulic_roller, core: billet_steel, gear_material: pressed_iron%s}
lifters: {kind: hydraulic_roller%s}  %s
pushrods: {length: 7.200 in}
oiling: {lifter_restrictors: none}
ignition: {distributor: {drive_gear_material: iron}}
intake: {spring: {seat_load: 130 lbf}}
exhaust: {spring: {seat_load: 130 lbf}}
"""
GOOD = CONVERTED % (", held_by: thrust_plate", ", kept_from_turning_by: link_bar", "")


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The block was made for {block_built_for_lifters} lifters and gets rollers, and nothing is written of {missing}.",
    fix="A conversion changes the whole train at once. Settle and write {missing}.",
    source="common practice, no source",
    when={"block_built_for_lifters": given},
    points_at=("intake_lifter_kind", "block_built_for_lifters"),
    conforming=(GOOD, GOOD.replace("[hydraulic_flat]", "[hydraulic_flat, hydraulic_roller]").replace("held_by: thrust_plate", "held_by: button")),
    nonconforming=((CONVERTED % ("", "", "# <-")), GOOD.replace("pushrods: {length: 7.200 in}\n", "").replace(
        "kept_from_turning_by: link_bar}  ", "kept_from_turning_by: link_bar}  # <-"), """
        build: {stage: ordering}
        block: {built_for_lifters: [solid_flat]}
        lifters: {kind: solid_roller}  # <-
        """),
)
def roller_conversion_changes_all_parts(
    block_built_for_lifters: List, intake_lifter_kind: Choice = None, camshaft_grind: Choice = None, camshaft_held_by: Choice = None,
    intake_lifter_kept_from_turning_by: Choice = None, pushrod_length_largest: Length = None,
    pushrod_zero_lash_length_largest: Length = None, intake_pushrod_length_largest: Length = None, ordered_pieces: Entries = None, distributor_drive_gear_material: Choice = None,
    camshaft_gear_material: Choice = None, spark_source: Choice = None, oil_pump_drive: Choice = None,
    oil_lifter_restrictors: Choice = None, intake_spring_seat_load: Force = None, exhaust_spring_seat_load: Force = None,
):
    """A roller cam in a flat-lifter block wants six other things, and the one that is forgotten stops the engine.

    Something to hold the cam, something to keep the lifters straight, a drive gear for the new core, shorter pushrods
    for the taller lifters, springs for the heavier ones, and a thought given to the oil feed (a restrictor that was
    right for solid flat lifters starves hydraulic ones). Asked is only that each is settled; whether it is right is
    for the rules on the part.
    """
    kind = camshaft_grind if intake_lifter_kind is None else intake_lifter_kind
    if kind is None:
        return lacking("lifter_kind")
    if kind not in ROLLERS or not set(block_built_for_lifters) <= set(FLATS):
        return not_applicable("the block was made for such lifters")
    gear_free = spark_source in ("wasted_spark", "coil_per_cylinder") and oil_pump_drive in ("crank", "belt")
    length = next((each for each in (pushrod_length_largest, intake_pushrod_length_largest, pushrod_zero_lash_length_largest)
                   if each is not None), None)
    settled = (
        ("what holds the cam", "camshaft_held_by", camshaft_held_by),
        ("what keeps the lifters from turning", "lifter_kept_from_turning_by", intake_lifter_kept_from_turning_by),
        ("the drive gear", "distributor_drive_gear_material", gear_free or distributor_drive_gear_material or camshaft_gear_material),
        ("the pushrod length", "pushrod_length", length is not None or "pushrod" in (ordered_pieces or ())),
        ("the springs", "intake_spring_seat_load", intake_spring_seat_load is not None and exhaust_spring_seat_load is not None),
        ("the oil feed to the lifters (restrictors)", "oil_lifter_restrictors", oil_lifter_restrictors),
    )
    missing = [(name, word) for name, word, known in settled if not known]
    if missing:
        names, words = zip(*missing)
        return wanting(*words).at("intake_lifter_kind", "block_built_for_lifters").telling(missing=names)
    return passes()
