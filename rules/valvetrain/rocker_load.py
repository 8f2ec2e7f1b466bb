"""What the rocker's body, its stud and its bolts carry."""

from buildlint.rulebook import *

SIDE = """
rockers: {class: production_needle_trunnion, ratio: %s}
intake:
  spring: {open_load: %s}  %s
"""
CLASS = """
rockers: {class: %s, ratio: %s}
intake:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{spring_open_load_largest} open is more than the {limit} that rockers of this class ({rocker_class}) carry at a ratio of "
         "{rocker_ratio}.",
    near="{spring_open_load_largest} open is right at the limit of {limit} for rockers of this class ({rocker_class}) at a ratio of "
         "{rocker_ratio}.",
    fix="Fit a stronger class of rocker, or stay under {goal} open. A better trunnion mends the bearing; it does not "
        "strengthen the body or the bolt, nor let the engine turn faster.",
    source="common practice, no source",
    points_at=("spring_open_load_largest", "rocker_class"),
    conforming=(SIDE % ("1.7", "396 lbf", ""), SIDE % ("1.7", "410 lbf", ""), SIDE % ("1.6", "425 lbf", ""),
                CLASS % ("stamped_ball", "1.5", "290 lbf", ""), CLASS % ("shaft_aluminum", "1.6", "850 lbf", ""), """
        rockers: {class: production_shaft, ratio: 1.5, maker_load_limit: 300 lbf}
        intake:
          spring: {open_load: 250 lbf}
        """),
    nonconforming=(SIDE % ("1.7", "461 lbf", "# <-"), SIDE % ("1.7", "460 lbf", "# <-"), SIDE % ("1.8", "460 lbf", "# <-"),
                   CLASS % ("stamped_ball", "1.5", "390 lbf", "# <-"), CLASS % ("stamped_ball", "1.5", "310 lbf", "# <-"),
                   CLASS % ("aluminum_roller_stud_7_16", "1.7", "640 lbf", "# <-"), """
        rockers: {class: shaft_steel, ratio: 1.8, maker_load_limit: 900 lbf, maker_limit_ratio: 1.6}
        intake:
          spring: {open_load: 850 lbf}  # <-
        """),
)
def rocker_carries_open_load(
    spring_open_load_largest: Force, rocker_ratio: Ratio, rocker_class: Choice = None, rocker_maker_load_limit: Force = None,
    rocker_maker_limit_ratio: Ratio = None, side_name: Choice = None, intake_spring_open_load_largest: Force = None,
    intake_rocker_class: Choice = None, intake_rocker_ratio: Ratio = None, *,
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
    ratio lowers it. The maker's own figure wins. Only one figure is widely agreed, 460 lbf at 1.7 for the factory
    body on uncaged needles, and counts as an error; others rate the same rocker by speed, good to 7500 rpm. The
    other classes have no source, are judged more mildly, and a shop may set its own. A factory shaft rocker has no
    figure but its maker's. Within the last tenth the build still stands, and says that it is right at the limit, once
    where both sides are alike.
    """
    same_as_intake = side_name == "exhaust" and (spring_open_load_largest, rocker_class, rocker_ratio) == (
        intake_spring_open_load_largest, intake_rocker_class, intake_rocker_ratio)
    near = None if same_as_intake else near
    if rocker_ratio <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    if rocker_maker_load_limit is not None:
        scale = (1 + (rocker_maker_limit_ratio or rocker_ratio)) / (1 + rocker_ratio)
        return at_most(spring_open_load_largest, Force(rocker_maker_load_limit * scale), near=near)
    if rocker_class is None:
        return lacking("rocker_class")
    if rocker_class not in reference_ratio:
        return not_applicable(f"no limit is agreed for {rocker_class.replace('_', ' ')}; write the maker's figure")
    scale = (1 + reference_ratio[rocker_class]) / (1 + rocker_ratio)
    tiers = {level: Force(rows[rocker_class] * scale)
             for level, rows in (("error", error_above), ("warning", warning_above), ("note", note_above))
             if rocker_class in rows}
    return at_most(spring_open_load_largest, **tiers, near=near if "error" in tiers else None)


STUD = """
rockers: {mount: stud, stud_fixing: %s, stud_diameter: %s, ratio: %s, girdle: %s}
intake:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{spring_open_load_largest} open bends a {row} stud at a ratio of {rocker_ratio}; {limit} is what it stands without flexing much.",
    fix="Go to the next stud ({next_step}), or stay under {goal} open.",
    source="common practice, no source",
    when={"rocker_mount": ("stud",)},
    points_at=("spring_open_load_largest", "rocker_stud_diameter", "rocker_stud_fixing"),
    conforming=(STUD % ("pressed", "3/8 in", "1.5", "none", "290 lbf", ""), STUD % ("screwed", "3/8 in", "1.5", "none", "420 lbf", ""),
                STUD % ("screwed", "7/16 in", "1.6", "none", "500 lbf", ""), STUD % ("screwed", "7/16 in", "1.5", "fitted", "700 lbf", "")),
    nonconforming=(STUD % ("pressed", "3/8 in", "1.5", "none", "310 lbf", "# <-"),
                   STUD % ("pressed", "3/8 in", "1.5", "none", "350 lbf", "# <-"),
                   STUD % ("screwed", "3/8 in", "1.6", "none", "480 lbf", "# <-"),
                   STUD % ("screwed", "7/16 in", "1.7", "fitted", "760 lbf", "# <-")),
)
def rocker_stud_carries_open_load(
    spring_open_load_largest: Force, rocker_ratio: Ratio, rocker_stud_fixing: Choice = None, rocker_stud_diameter: Length = None,
    rocker_class: Choice = None, rocker_girdle: Choice = None, *,
    note_above={"pressed": q("300 lbf"), "3/8": q("425 lbf"), "7/16": q("675 lbf")},
    warning_above={"pressed": q("345 lbf"), "3/8": q("489 lbf"), "7/16": q("776 lbf")},
    reference_ratio: Ratio = q("1.5", "ratio"), large_stud: Length = q("0.430 in"), usual_stud: Length = q("0.370 in"),
):
    """A stud that bends lets the rocker walk, and the valve loses lift just where the load is highest.

    A pressed stud also pulls out of the head. Bending stiffness goes with the fourth power of the diameter: 7/16 is
    1.85 times as stiff as 3/8. The figures are for a ratio of 1.5 and scaled so that the stud feels the same at
    another; they have no source, and mild cams live above the older ones, so that the first line is a note. A girdle
    ties the studs together and takes the note away.
    """
    if rocker_stud_fixing is None and rocker_stud_diameter is None and rocker_class not in (
            "aluminum_roller_stud_3_8", "aluminum_roller_stud_7_16", "steel_roller_stud_7_16"):
        return lacking("rocker_stud_fixing", "rocker_stud_diameter")
    if rocker_stud_fixing == "pressed":
        row = "pressed"
    elif rocker_stud_diameter is not None:
        row = "7/16" if rocker_stud_diameter >= large_stud else "3/8" if rocker_stud_diameter >= usual_stud else None
    elif rocker_class in ("aluminum_roller_stud_7_16", "steel_roller_stud_7_16"):
        row = "7/16"
    elif rocker_class == "aluminum_roller_stud_3_8":
        row = "3/8"
    else:
        return lacking("rocker_stud_diameter")
    if row is None:
        return not_applicable("no figure is agreed for studs this thin")
    if rocker_ratio <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    scale = (1 + reference_ratio) / (1 + rocker_ratio)
    note = None if rocker_girdle == "fitted" else Force(note_above[row] * scale)
    return at_most(spring_open_load_largest, warning=Force(warning_above[row] * scale), note=note).telling(
        row="pressed-in" if row == "pressed" else f"{row} in",
        next_step={"pressed": "screwed in", "3/8": "7/16 in", "7/16": "a girdle, or shaft rockers"}[row])


BOLT = """
engine: {cylinders: 8}
rockers: {ratio: 1.6}
intake:
  spring: {open_load: 600 lbf}
joints:
  rocker: {kind: bolt, count: 16, thread: M8x1.25, lubricant: engine_oil, tightening: torque, torque: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The rocker's fastener is tightened to {preload}, {value} times the {rocker_fulcrum_load_largest} that pulls on it; keep "
         "{limit} times.",
    fix="Tighten it to {torque_wanted:up} as it is lubricated now, if fastener and thread stand that, or fit a larger one.",
    source="statics; factor two common practice, no source",
    points_at=("rocker_joint_torque", "rocker_intake_joint_torque", "rocker_exhaust_joint_torque"),
    conforming=BOLT % ("22 lbf-ft", ""),
    nonconforming=BOLT % ("10 lbf-ft", "# <-"),
)
def rocker_bolt_holds_fulcrum_load(
    rocker_fulcrum_load_largest: Force, side_name: Choice, rocker_joint_preload: Force = None, rocker_intake_joint_preload: Force = None,
    rocker_exhaust_joint_preload: Force = None, rocker_joint_torque: Torque = None, rocker_intake_joint_torque: Torque = None,
    rocker_exhaust_joint_torque: Torque = None, rocker_joint_count: Count = None, rocker_intake_joint_count: Count = None,
    rocker_exhaust_joint_count: Count = None, cylinders: Count = None, *, least: Ratio = q("2.0", "ratio"),
):
    """The pivot pulls at its fastener with the open load times one plus the ratio; a loose fastener walks and breaks.

    Twice the pull keeps the stand on its seat while the load swings. Asked where the rocker joint and its torque are
    written; fasteners shared by a pair of rockers carry one of them at a time.
    """
    own = (rocker_intake_joint_preload, rocker_intake_joint_torque, rocker_intake_joint_count, 1) if side_name == "intake" else \
        (rocker_exhaust_joint_preload, rocker_exhaust_joint_torque, rocker_exhaust_joint_count, 1)
    preload, torque, count, sides = own if own[0] is not None else (rocker_joint_preload, rocker_joint_torque, rocker_joint_count, 2)
    if preload is None:
        return not_applicable("no tightened rocker joint is written")
    if preload <= 0 or rocker_fulcrum_load_largest <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    each = max(1, count // (sides * cylinders)) if count and cylinders else 1
    verdict = at_least(Ratio(preload * each / rocker_fulcrum_load_largest), warning=least)
    return verdict.telling(preload=Force(preload * each), torque_wanted=Torque(
        torque * least * rocker_fulcrum_load_largest / (preload * each)) if torque is not None else "twice the pull").at(
            *((f"rocker_{side_name}_joint_torque",) if sides == 1 else ("rocker_joint_torque",)))
