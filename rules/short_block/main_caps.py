"""Main caps and their fasteners: what a change of either brings with it."""

from buildlint.rulebook import *

SPLAYED = """
block: {main_caps_history: caps_semi_finished, line_honed: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The new main caps come semi-finished, and the line has not been bored and honed with them.",
    fix="Have register, bolt holes and line bored and honed for these caps with the final fasteners torqued; then measure every housing.",
    source="common practice, no source; line boring after a cap is replaced: US Army TM 5-3810-303-24",
    when={"block_main_caps_history": given},
    points_at=("block_line_honed", "block_main_caps_history"),
    conforming=SPLAYED % ("done", ""),
    nonconforming=SPLAYED % ("not_done", "# <-"),
)
def splayed_caps_are_machined(block_main_caps_history: Choice, block_line_honed: Choice = None):
    """Caps that are sold with stock to bore do not fit until the line has been cut through all of them."""
    if block_main_caps_history != "caps_semi_finished":
        return not_applicable("no semi-finished caps")
    return lacking("block_line_honed") if block_line_honed is None else one_of(block_line_honed, ("done",))


CHANGED = """
block: {main_caps_history: %s, line_honed: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="{changed} on the mains, and the line was neither measured nor honed afterwards.",
    fix="Torque the caps with the final fasteners and lubricant, measure housings and line, hone if they moved, and measure the clearances "
        "again; look at the slack of the timing set where the crank came nearer to the cam.",
    source="common practice, no source; at most 0.001 in of stock when a cap is replaced: US Army TM 5-3810-303-24",
    when={"block_main_caps_history": given},
    points_at=("block_line_honed", "block_main_caps_history"),
    conforming=(CHANGED % ("fasteners_changed", "done", ""), """
        block: {main_caps_history: fasteners_changed, line_honed: not_done, line_misalignment_adjacent: 0.0003 in}
        """),
    nonconforming=(CHANGED % ("fasteners_changed", "not_done", "# <-"), CHANGED % ("caps_replaced", "not_done", "# <-")),
)
def new_main_fasteners_get_line_check(
    block_main_caps_history: Choice, block_line_honed: Choice = None, block_line_misalignment_adjacent: Length = None,
):
    """Studs pull a cap differently than the bolts with which the line was bored; a thousandth at the parting line is common.

    A line that was measured with the new fasteners and found good needs no honing: write the misalignment.
    """
    if block_main_caps_history not in ("fasteners_changed", "caps_replaced"):
        return not_applicable("the caps are held as they were bored")
    if block_line_misalignment_adjacent is not None:
        return passes()
    if block_line_honed is None:
        return lacking("block_line_honed")
    changed = "Other fasteners" if block_main_caps_history == "fasteners_changed" else "Other caps"
    return one_of(block_line_honed, ("done",)).telling(changed=changed)


PLATE = """
block: {torque_plate: used, torque_plate_joint: %s, torque_plate_torque: %s}  %s
joints:
  head: {kind: stud, torque: 70 lbf-ft}
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The bores were honed with {plate}, but the head is held by {head}.",
    fix="Hone again with the plate held as the head will be: same fasteners, lubricant, gasket and torque; or fit what the bores were honed "
        "with.",
    source="common practice, no source; heads have been seen to distort bores by 0.0015 in",
    when={"block_torque_plate": ("used", "used_with_final_gasket_and_fasteners")},
    points_at=("block_torque_plate_joint", "block_torque_plate_torque"),
    conforming=(PLATE % ("stud", "70 lbf-ft", ""), PLATE % ("stud", "68 lbf-ft", "")),
    nonconforming=(PLATE % ("bolt", "70 lbf-ft", "# <-"), PLATE % ("stud", "55 lbf-ft", "# <-")),
)
def bores_sized_with_final_fasteners(
    block_torque_plate_joint: Choice, head_joint_kind: Choice, block_torque_plate_torque: Torque = None, head_joint_torque: Torque = None, *,
    warning_beyond: Fraction = q("0.10", "fraction"),
):
    """A plate with bolts pulls the top of the bore another way than a head with studs; the bore is then round for nobody.

    Another kind of fastener is an error, a torque that differs by more than a tenth a warning.
    """
    names = {"stud": "studs", "bolt": "bolts", "cap_screw": "cap screws"}
    if block_torque_plate_joint != head_joint_kind:
        return require(False).telling(plate=names.get(block_torque_plate_joint, block_torque_plate_joint),
                                      head=names.get(head_joint_kind, head_joint_kind))
    if block_torque_plate_torque is None or head_joint_torque is None:
        return passes()
    verdict = at_most(Fraction(abs(block_torque_plate_torque / head_joint_torque - 1)), warning=warning_beyond)
    verdict.comparing(Torque(block_torque_plate_torque), Torque(head_joint_torque))
    return verdict.telling(plate=Torque(block_torque_plate_torque), head=Torque(head_joint_torque)).at("block_torque_plate_torque")


STUDS = """
build: {stage: mock_up}
block: {main_caps_history: fasteners_changed}
joints:
  main: {kind: stud}
oiling:
  pickup: {to_floor: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="Studs replace the bolts of the main caps, but the pickup's height of {oil_pickup_to_floor} is a plan, not a measurement.",
    fix="With the studs torqued, measure pickup to floor again, try tray, pump boss and dipstick, and write the height under measured, "
        "with by and on.",
    source="common practice, no source",
    when={"block_main_caps_history": given, "main_joint_kind": given},
    points_at=("oil_pickup_to_floor",),
    conforming=STUDS % ("{measured: 0.375 in, by: RM, on: 2026-03-02}", ""),
    nonconforming=STUDS % ("0.375 in", "# <-"),
)
def main_stud_change_is_followed_up(
    block_main_caps_history: Choice, main_joint_kind: Choice, oil_pickup_to_floor: Length = None,
    oil_pickup_to_floor_measured: Length = None, stage: Choice = None, oil_sump: Choice = None,
):
    """Studs stand taller than bolts: the pump sits elsewhere or its boss is cut, the tray is raised, the dipstick meets a nut.

    Nothing of that shows until the pan is on. Asked from the mock-up on.
    """
    if block_main_caps_history != "fasteners_changed" or main_joint_kind != "stud" or stage not in ("mock_up", "assembly", "handover"):
        return not_applicable("no studs were put in, or the mock-up is still to come")
    if oil_sump == "dry":
        return not_applicable("a dry sump has no pickup, and its pump stands outside")
    if oil_pickup_to_floor is None:
        return lacking("oil_pickup_to_floor")
    return require(oil_pickup_to_floor_measured is not None)


CAPS = """
bearings:
  main: {cap_numbers: %s, caps_face: %s}  %s
"""


@rule(
    scope="main_bearing",
    level="error",
    due="assembly",
    says="The main caps are not in their places.",
    fix="Put every cap back in its own place with its arrow to the front; caps were bored in place and fit nowhere else.",
    source="common practice, no source",
    points_at=("cap_numbers", "caps_face"),
    conforming=CAPS % ("[1, 2, 3, 4, 5]", "front", ""),
    nonconforming=(CAPS % ("[1, 3, 2, 4, 5]", "front", "# <-"), "block: {mains: 5}\n" + (CAPS % ("[1, 2, 3, 4]", "front", "# <-")).lstrip(), CAPS % ("[1, 2, 3, 4, 5]", "rear", "# <-")),
)
def main_caps_return_to_their_places(cap_numbers: List, caps_face: Choice = None, block_mains: Count = None):
    """A main cap in the wrong place, or turned round, makes a housing that is neither round nor in line; the bearing seizes or spins."""
    return _places(cap_numbers, caps_face, "main bearing", "The main caps", block_mains)


@rule(
    scope="rod_bearing",
    level="error",
    due="assembly",
    says="The rod caps are not in their places.",
    fix="Put every cap back on its own rod, numbers on one side, and every rod into its own cylinder.",
    source="common practice, no source",
    when={"cap_numbers": given},
    points_at=("cap_numbers",),
    conforming="bearings: {rod: {cap_numbers: [1, 2, 3, 4, 5, 6, 7, 8]}}",
    nonconforming="bearings: {rod: {cap_numbers: [1, 2, 3, 4, 6, 5, 7, 8]}}  # <-",
)
def rod_caps_return_to_their_rods(cap_numbers: List, cylinders: Count = None):
    """Rod and cap are bored as one piece, or broken apart: another cap fits by its bolts and by nothing else."""
    return _places(cap_numbers, None, "cylinder", "The rod caps", cylinders)


def _places(numbers, faces, place, what, count=None):
    wrong = [f"{int(number)} at {place} {position}" for position, number in enumerate(numbers, 1) if int(number) != position]
    if wrong:
        return require(False).saying(f"{what} are not in their places: {', '.join(wrong)}.").at("cap_numbers")
    if count is not None and len(numbers) != count:
        return require(False).at("cap_numbers").saying(
            f"{what} carry {len(numbers)} numbers, and the engine has {int(count)} of them.",
            "Read the numbers off the caps again, front to rear, each once.")
    if faces is not None and faces != "front":
        return require(False).saying(f"{what} do not face the front.").at("caps_face")
    return passes()
