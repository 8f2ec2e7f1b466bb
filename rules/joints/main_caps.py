"""The clamp of the main caps against the gas load on them."""

from buildlint.rulebook import *

CAPS = """
build: {peak_cylinder_pressure: %s}
block: {bore: 4.030 in, main_fasteners_per_cap: 2}
joints:
  main: {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, yield_strength: 150 ksi, torque: %s, torque_given_for: moly_paste}  %s
"""


@rule(
    scope="main_bearing",
    level="warning",
    due="ordering",
    says="The fasteners of one main cap hold {value} times the {main_cap_load} of gas load that comes on it{basis}.",
    fix="Use stronger or more fasteners to a cap, or tighten them to what they bear; a bolt's weaker thread end counts.",
    source="half of the gas load to each cap, statics; limits common practice, no source",
    when={"main_clamp_ratio": given},
    points_at=("main_joint_torque", "main_joint_strength_class", "block_main_fasteners_per_cap"),
    conforming=CAPS % ("1200 psi", "65 lbf-ft", ""),
    nonconforming=(CAPS % ("2500 psi", "65 lbf-ft", "# <-"), CAPS % ("1500 psi", "55 lbf-ft", "# <-")),
)
def main_caps_hold_gas_load(
    main_clamp_ratio: Ratio, main_cap_load: Force, main_joint_torque: Torque = None, main_joint_strength_class: Choice = None,
    block_main_fasteners_per_cap: Count = None, peak_cylinder_pressure_written: Pressure = None, peak_torque: Torque = None, *,
    warning_below: Ratio = q("2.0", "ratio"), note_below: Ratio = q("3.0", "ratio"),
):
    """A cap that lifts even a little lets the crank move, and frets its own seat until the fasteners break.

    Gas load is shared by two caps, and neighbors do not fire together. The tension is that of the torque, or 0.75 of
    proof at the weaker end of the thread where none is written.
    """
    basis = "" if peak_cylinder_pressure_written is not None or peak_torque is not None else ", with a peak pressure taken for the duty"
    return at_least(Ratio(main_clamp_ratio), warning=warning_below, note=note_below).telling(basis=basis)
