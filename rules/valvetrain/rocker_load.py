"""What the rocker's body, bearing and mount carry."""

from buildlint.rulebook import *

SIDE = """
rockers: {class: production_needle_trunnion, ratio: 1.7}
intake:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{spring_open_load} open is more than {limit} that a {rocker_class} rocker of ratio {rocker_ratio} carries.",
    near="{spring_open_load} open is right at the limit of {limit} for a {rocker_class} rocker of ratio {rocker_ratio}.",
    fix="Fit a stronger class of rocker, or stay under {limit} open. A better trunnion mends the bearing; it does not "
        "strengthen the body or the bolt.",
    source="common practice, no source",
    points_at=("spring_open_load", "rocker_class"),
    conforming=(SIDE % ("396 lbf", ""), SIDE % ("410 lbf", "")),
    nonconforming=(SIDE % ("461 lbf", "# <-"), SIDE % ("460 lbf", "# <-")),
)
def rocker_carries_open_load(
    spring_open_load: Force, rocker_ratio: Ratio, rocker_class: Choice = None, rocker_maker_load_limit: Force = None,
    rocker_maker_limit_ratio: Ratio = None, *,
    error_above={"production_needle_trunnion": q("460 lbf")},
    warning_above={
        "stamped_ball": q("380 lbf"), "production_caged_trunnion": q("500 lbf"),
        "production_bushing_trunnion": q("550 lbf"), "aluminum_roller_stud_3_8": q("425 lbf"),
        "aluminum_roller_stud_7_16": q("650 lbf"), "steel_roller_stud_7_16": q("700 lbf"),
        "pedestal_roller": q("600 lbf"), "shaft_aluminum": q("1050 lbf"), "shaft_steel": q("1400 lbf"),
    },
    note_above={
        "stamped_ball": q("300 lbf"), "production_caged_trunnion": q("450 lbf"),
        "production_bushing_trunnion": q("500 lbf"), "aluminum_roller_stud_3_8": q("375 lbf"),
        "aluminum_roller_stud_7_16": q("575 lbf"), "steel_roller_stud_7_16": q("625 lbf"),
        "pedestal_roller": q("525 lbf"), "shaft_aluminum": q("900 lbf"), "shaft_steel": q("1100 lbf"),
    },
    reference_ratio={
        "stamped_ball": 1.5, "production_needle_trunnion": 1.7, "production_caged_trunnion": 1.7,
        "production_bushing_trunnion": 1.7, "aluminum_roller_stud_3_8": 1.5, "aluminum_roller_stud_7_16": 1.6,
        "steel_roller_stud_7_16": 1.6, "pedestal_roller": 1.7, "shaft_aluminum": 1.6, "shaft_steel": 1.6,
    },
    near=0.90,
):
    """The rocker's pivot feels the valve's load and the pushrod's together: open load times one plus the ratio.

    A limit is known at one ratio; at another it is scaled so that the pivot feels the same, so a step up in
    ratio lowers it. The maker's own figure wins. Only the figure for the factory body on uncaged needles is
    widely agreed and counts as an error; the other classes are judged more mildly, and a shop may set its own.
    Within the last tenth the build still stands, and says that it is right at the limit.
    """
    if rocker_maker_load_limit is not None:
        scale = (1 + (rocker_maker_limit_ratio or rocker_ratio)) / (1 + rocker_ratio)
        return at_most(spring_open_load, Force(rocker_maker_load_limit * scale), near=near)
    if rocker_class is None:
        return lacking("rocker_class")
    if rocker_class not in reference_ratio:
        return not_applicable(f"no limit is agreed for {rocker_class.replace('_', ' ')}; write the maker's figure")
    scale = (1 + reference_ratio[rocker_class]) / (1 + rocker_ratio)
    tiers = {level: Force(rows[rocker_class] * scale)
             for level, rows in (("error", error_above), ("warning", warning_above), ("note", note_above))
             if rocker_class in rows}
    return at_most(spring_open_load, **tiers, near=near if "error" in tiers else None)
