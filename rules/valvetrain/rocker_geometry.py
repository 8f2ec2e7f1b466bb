"""Where the rocker's tip runs on the valve: how wide the pattern is, and whether it lies in the middle."""

from buildlint.rulebook import *

WIPE = """
rockers: {ratio: 1.7, tip: %s, valve_arm: 1.65 in, wipe_width: %s}  %s
intake:
  lobe: {lift: 0.353 in}
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The rocker wipes {rocker_wipe_width} of the valve tip; {limit} is the most that its arm and lift excuse.",
    fix="Change the pushrod's length on studs, or shim or cut the stands, until the pattern is narrowest: the arm then "
        "stands square to the stem at half lift.",
    source="geometry of the arm; allowances common practice, no source",
    points_at=("rocker_wipe_width",),
    conforming=(WIPE % ("roller", "0.045 in", ""), WIPE % ("roller", "[0.050 in, 0.057 in]", ""), WIPE % ("shoe", "0.110 in", "")),
    nonconforming=(WIPE % ("roller", "0.065 in", "# <-"), WIPE % ("roller", "0.110 in", "# <-"), """
        rockers:
          tip: roller
          wipe_width: 0.085 in  # <-
        """),
)
def rocker_wipe_is_narrow(
    rocker_wipe_width: Length = None, rocker_sweep_least: Length = None, rocker_tip: Choice = None, rocker_class: Choice = None, *,
    above_least: Length = q("0.030 in"), most: Length = q("0.080 in"),
):
    """A wide pattern pushes the stem sideways at every lift and wears the guide.

    The arm square to the stem at half lift gives the narrowest sweep, the least geometry allows; whether exactly
    square is best is disputed, and patterns of 0.040 to 0.080 in are run. Three hundredths over the least, and 0.080
    in altogether, are the line. A shoe rolls and slides differently and is not judged by width.
    """
    if rocker_tip == "shoe" or (rocker_tip is None and rocker_class == "stamped_ball"):
        return not_applicable("a shoe's pattern is not judged by its width")
    if rocker_wipe_width is None:
        return lacking("rocker_wipe_width")
    limit = most if rocker_sweep_least is None else Length(min(most, rocker_sweep_least + above_least))
    verdict = at_most(rocker_wipe_width, warning=limit)
    if rocker_sweep_least is not None:
        verdict.saying(fix="Change the pushrod's length on studs, or shim or cut the stands, until the pattern is narrowest: "
                           "the arm then stands square to the stem at half lift, and {rocker_sweep_least} is the least.")
    return verdict


CENTER = """
rockers: {tip: roller, wipe_width: %s, wipe_off_center: %s}  %s
intake:
  valve: {stem_diameter: %s, lash_cap: %s}
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The rocker's pattern lies {value} off the middle of the tip; keep within {limit}.",
    fix="Move it back with the pushrod's length on a stud (longer moves it outward), or with shims under the stand; then look at its "
        "width again.",
    spared=("stock",),
    source="common practice, no source",
    points_at=("rocker_wipe_off_center",),
    conforming=(CENTER % ("0.045 in", "0.020 in", "", "0.3414 in", "none"), CENTER % ("0.045 in", "0.030 in", "", "0.3414 in", "fitted"),
                CENTER % ("0.070 in", "0.045 in", "", "0.3414 in", "none")),
    nonconforming=(CENTER % ("0.045 in", "0.060 in", "# <-", "0.3414 in", "none"),
                   CENTER % ("0.045 in", "0.040 in", "# <-", "0.3414 in", "fitted"),
                   CENTER % ("0.110 in", "0.045 in", "# <-", "0.2748 in", "none")),
)
def rocker_wipe_is_centered(
    rocker_wipe_off_center: Length, rocker_wipe_width_largest: Length = None, valve_stem_diameter_smallest: Length = None,
    valve_lash_cap: Choice = None, *,
    most_off_center: Length = q("0.050 in"), most_off_center_on_a_cap: Length = q("0.030 in"), to_the_edge: Length = q("0.040 in"),
):
    """A tip that bears near the edge tips the valve in its guide, and tips a lash cap off.

    Narrow and in the middle is the aim; where both cannot be had, narrow counts more for the guide and middle more for
    a lash cap, so that a cap has the tighter line.
    """
    most = most_off_center_on_a_cap if valve_lash_cap == "fitted" else most_off_center
    verdict = at_most(rocker_wipe_off_center, warning=most)
    if verdict.kind == "fail" or valve_stem_diameter_smallest is None or rocker_wipe_width_largest is None or valve_lash_cap == "fitted":
        return verdict
    left = valve_stem_diameter_smallest / 2 - rocker_wipe_off_center - rocker_wipe_width_largest / 2
    return at_least(Length(left), warning=to_the_edge).saying(
        "The rocker's pattern comes within {value} of the edge of the tip; keep {limit}.")


@rule(
    scope="side",
    level="reminder",
    due="mock_up",
    says="Look at every valve: does the roller run in the middle of the tip, side to side?",
    fix="Slot or shift the guideplates until the roller runs in the middle of the tip, then look at the pushrods' gaps again.",
    source="common practice, no source",
    points_at=("rocker_sideways_off_center", "rocker_guided_by"),
    conforming="rockers: {mount: stud, guided_by: guideplate}",
    nonconforming="rockers: {guided_by: guideplate, sideways_off_center: 0.045 in}  # <-",
)
def rocker_tip_is_centered_sideways(
    rocker_guided_by: List = None, rocker_sideways_off_center: Length = None, *, most: Length = q("0.030 in"),
):
    """Guideplates decide where the roller stands across the valve, and they are rarely right out of the box.

    A roller at one side of the tip leans the valve in its guide. Only somebody who looks at every valve can say; a
    measured figure answers it.
    """
    if rocker_sideways_off_center is not None:
        return at_most(rocker_sideways_off_center, warning=most).saying(
            "The roller stands {rocker_sideways_off_center} off the middle of the tip; keep within {limit}.")
    guides = rocker_guided_by if isinstance(rocker_guided_by, (list, tuple)) else [rocker_guided_by]
    if "guideplate" not in guides:
        return not_applicable("no guideplates to shift")
    return review()
