"""Whether the pushrods that are ordered are as long as measured, or as the machining asks for."""

from buildlint.rulebook import *

MEASURED = """
lifters: {kind: %s, preload: 0.040 in}
rockers: {adjustment: %s}
pushrods: {length_measured_how: overall, zero_lash_length: 7.360 in, length: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The pushrod is {pushrod_length}, but the length at zero lash and the preload ask for {pushrod_length_to_order}.",
    fix="Order {pushrod_length_to_order}, measured {how}, or measure again at the final gasket and preload.",
    spared=("stock",),
    source="geometry; limits common practice, no source",
    points_at=("pushrod_length",),
    conforming=(MEASURED % ("hydraulic_roller", "none_net_lash", "7.400 in", ""),
                MEASURED % ("hydraulic_roller", "none_net_lash", "7.410 in", ""),
                MEASURED % ("solid_roller", "pushrod_end", "7.350 in", ""),
                MEASURED % ("hydraulic_roller", "stud_nut", "7.350 in", "")),
    nonconforming=(MEASURED % ("hydraulic_roller", "none_net_lash", "7.426 in", "# <-"),
                   MEASURED % ("hydraulic_roller", "none_net_lash", "7.385 in", "# <-"),
                   MEASURED % ("solid_roller", "pushrod_end", "7.300 in", "# <-"), """
        lifters: {kind: hydraulic_roller, preload: 0.040 in}
        rockers: {adjustment: none_net_lash}
        intake:
          pushrod:
            length: 7.400 in  # <-
            zero_lash_length: [7.360 in, 7.362 in, 7.395 in, 7.361 in]
        """),
)
def pushrod_length_matches_measurement(
    pushrod_length: Length, pushrod_length_to_order: Length, rocker_adjustment: Choice = None,
    pushrod_length_measured_how: Choice = None, *,
    fixed_warning_beyond: Length = q("0.010 in"), fixed_error_beyond: Length = q("0.025 in"),
    adjusted_warning_beyond: Length = q("0.050 in"),
):
    """On a train without adjusters the pushrod is the adjustment: a wrong length is a wrong preload.

    Measured with a checker at the final gasket, then ordered. Where a nut or screw takes up the difference the
    length still decides where the rocker sweeps, so a twentieth of an inch is asked about. Castings move: a list of
    lengths at zero lash, both ends and both banks, is compared one by one.
    """
    how = "the same way as the checker" if pushrod_length_measured_how is None else \
        {"overall": "overall, tip to tip", "over_oil_hole": "over the oil holes", "ball_centers": "between ball centers"}.get(
            pushrod_length_measured_how, pushrod_length_measured_how)
    return _difference(pushrod_length, pushrod_length_to_order, rocker_adjustment, fixed_warning_beyond, fixed_error_beyond,
                       adjusted_warning_beyond).telling(how=how)


def _difference(length, wanted, adjustment, fixed_warning, fixed_error, adjusted_warning):
    """The verdict on a length, by whether an adjuster can take up what is wrong."""
    gap = Length(abs(length - wanted))
    if adjustment in ("stud_nut", "pushrod_end"):
        verdict = at_most(gap, warning=adjusted_warning)
    elif adjustment is None and fixed_warning < gap <= adjusted_warning:
        return lacking("rocker_adjustment")
    elif adjustment is None:
        verdict = at_most(gap, warning=fixed_warning)
    else:
        verdict = at_most(gap, warning=fixed_warning, error=fixed_error)
    verdict.comparing(length, wanted)
    return verdict


MACHINED = """
block: {deck_removed: 0.010 in}
heads: {face_removed: 0.005 in}
head_gasket: {compressed_thickness: 0.054 in, replaced_thickness: 0.041 in}
camshaft: {base_circle_diameter: 1.450 in, replaced_base_circle_diameter: 1.550 in}
rockers: {ratio: 1.7, adjustment: none_net_lash}
pushrods:
  replaced_length: 7.400 in
  length: %s  %s
intake: {seat: {sunk: 0.017 in}}
exhaust: {seat: {sunk: 0.017 in}}
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The pushrod is {pushrod_length}; the old one was {pushrod_replaced_length}, and what was changed since asks for "
         "{pushrod_length_from_machining}.",
    fix="Measure with a checker before ordering; expect about {pushrod_length_from_machining}. If the old length stays, "
        "say which change is not written: cuts, gasket, base circle, lifter, valve tip or stand.",
    source="geometry; limits common practice, no source",
    when={"pushrod_replaced_length": given},
    points_at=("pushrod_length",),
    conforming=(MACHINED % ("7.438 in", ""), MACHINED % ("7.430 in", "")),
    nonconforming=(MACHINED % ("7.400 in", "# <-"), """
        block: {deck_removed: 0.060 in}
        rockers: {ratio: 1.6, adjustment: stud_nut}
        pushrods:
          replaced_length: 7.800 in
          length: 7.800 in  # <-
        """),
)
def pushrod_length_follows_machining(
    pushrod_length: Length, pushrod_length_from_machining: Length, pushrod_replaced_length: Length,
    rocker_adjustment: Choice = None, pushrod_zero_lash_length: Length = None, *,
    fixed_warning_beyond: Length = q("0.010 in"), adjusted_warning_beyond: Length = q("0.050 in"),
):
    """Every cut, gasket, base circle and lifter moves the rocker away from the lobe or toward it.

    A skim of 0.030 in uses up most of a hydraulic lifter's preload. The lifter side and the block count one to one;
    a valve tip that stands higher shortens the rod by its rise over the ratio where the pivot stands still, and
    lengthens it by the whole rise where the nut on a stud lets the pivot follow. A length measured at zero lash
    wins: with one written, only a difference that no adjuster takes up is mentioned, as a note.
    """
    gap = Length(abs(pushrod_length - pushrod_length_from_machining))
    limit = adjusted_warning_beyond if rocker_adjustment in ("stud_nut", "pushrod_end") else fixed_warning_beyond
    if pushrod_zero_lash_length is not None:
        verdict = at_most(gap, note=adjusted_warning_beyond)
    else:
        verdict = at_most(gap, warning=limit)
    verdict.comparing(pushrod_length, pushrod_length_from_machining)
    return verdict


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The pushrod's length is written, but not how it was measured.",
    fix="Write length_measured_how: overall, over_oil_hole or ball_centers; the ways differ by 0.017 to 0.030 in.",
    source="common practice, no source",
    when={"pushrod_length": given},
    points_at=("pushrod_length",),
    conforming="pushrods: {length: 7.400 in, length_measured_how: overall}",
    nonconforming="pushrods: {length: 7.400 in}  # <-",
)
def pushrod_length_states_convention(pushrod_length_measured_how: Choice = None):
    """Tip to tip, over the oil holes and between ball centers are three numbers for one rod.

    Mixing them up costs up to three hundredths, most of a preload.
    """
    return require(pushrod_length_measured_how is not None)
