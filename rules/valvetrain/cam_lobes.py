"""Whether the lobes go into the block, and whether their noses bear what presses on them."""

from buildlint.rulebook import *

FLATS = ("hydraulic_flat", "solid_flat")

PASSING = """
camshaft: {base_circle_diameter: %s}  %s
bearings:
  cam: {journal_diameter: 2.165 in}
intake:
  lobe: {lift: 0.353 in}
exhaust:
  lobe: {lift: %s}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Over its lobes the cam measures {value}; to go easily through bearings for {cam_bearing_journal_diameter_smallest} journals "
         "it may have {most}.",
    fix="Order a base circle of at most {base_to_order:down}, or have the tunnel bored for larger bearings.",
    source="geometry; clearance to pass common practice, no source",
    when={"camshaft_base_circle_diameter": given},
    points_at=("camshaft_base_circle_diameter",),
    conforming=(PASSING % ("1.449 in", "", "0.353 in"), PASSING % ("1.355 in", "", "0.400 in")),
    nonconforming=(PASSING % ("1.450 in", "# <-", "0.353 in"), PASSING % ("1.449 in", "# <-", "0.400 in")),
)
def cam_lobes_pass_the_bearings(
    camshaft_base_circle_diameter: Length, cam_bearing_journal_diameter_smallest: Length, intake_lobe_lift: Length = None,
    exhaust_lobe_lift: Length = None, *, room: Length = q("0.010 in"),
):
    """A cam goes in through its own bearings: a lobe that stands higher than the journal stays outside.

    One that only just passes scrapes the lining on its way in, which is a warning.

    Where journals step down toward the rear the smallest counts, though the last bearing is passed by no lobe; a
    cam that only just fails in such a block may still go in.
    """
    lifts = [lift for lift in (intake_lobe_lift, exhaust_lobe_lift) if lift is not None]
    if not lifts:
        return lacking("intake_lobe_lift")
    verdict = at_most(Length(camshaft_base_circle_diameter + 2 * max(lifts)), error=Length(cam_bearing_journal_diameter_smallest),
                      warning=Length(cam_bearing_journal_diameter_smallest - room))
    return verdict.telling(most=Length(cam_bearing_journal_diameter_smallest - room), base_to_order=Length(cam_bearing_journal_diameter_smallest - room - 2 * max(lifts)))


# A lobe read at every fourth cam degree: with a table the nose is known, from durations it is estimated.
TABLE = """
    table: [[0 deg, 0.3530 in], [4 deg, 0.3510 in], [8 deg, 0.3449 in], [12 deg, 0.3347 in], [16 deg, 0.3207 in], [20 deg, 0.3028 in],
            [24 deg, 0.2815 in], [28 deg, 0.2571 in], [32 deg, 0.2301 in], [36 deg, 0.2013 in], [40 deg, 0.1713 in], [44 deg, 0.1412 in],
            [48 deg, 0.1118 in], [52 deg, 0.0843 in], [56 deg, 0.0597 in], [60 deg, 0.0387 in], [64 deg, 0.0222 in], [68 deg, 0.0105 in],
            [72 deg, 0.0035 in], [76 deg, 0.0005 in], [80 deg, 0 in]]
"""
NOSE = """
camshaft: {base_circle_diameter: %s, core: cast_iron}  %s
lifters: {kind: solid_flat}
rockers: {ratio: 1.5}
intake:
  lobe:
    lift: 0.353 in
    duration_at_050: 231 deg
    advertised_duration: 281 deg
    advertised_check_height: 0.006 in
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The nose of the lobe has a radius of about {value}; under a flat foot keep {limit}.",
    fix="Take a larger base circle, a gentler or lower lobe, or go to rollers.",
    source="kinematics of the follower: Rothbart, Cam Design Handbook; limit engineering judgement, no source",
    when={"camshaft_base_circle_diameter": given, "lifter_kind": FLATS},
    points_at=("camshaft_base_circle_diameter",),
    conforming=(NOSE % ("1.440 in", ""), NOSE % ("1.440 in", "") + TABLE, NOSE % ("1.200 in", "")),
    nonconforming=(NOSE % ("1.420 in", "# <-") + "    duration_at_200: 145 deg\n", NOSE % ("1.200 in", "# <-") + TABLE),
)
def lobe_nose_radius_is_large(
    lifter_kind: Choice, lobe_nose_radius: Length = None, lobe_table: Table = None, lobe_duration_at_200: Angle = None, *,
    least: Length = q("6 mm"),
):
    """A sharp nose under a flat foot carries the whole load on a hair line and scuffs in its first minutes.

    The radius follows from base circle, lift and how fast the lobe turns over. Estimated from durations with that at
    0.200 in it is a note; without that one the estimate is far too sharp (0.215 against 0.25 to 0.30 in for one mild
    cam) and only clears a nose, never condemns it.
    """
    if lobe_nose_radius is None:
        return not_applicable("the lobe's shape is not written") if lobe_duration_at_200 is not None else lacking("lobe_duration_at_200")
    verdict = at_least(lobe_nose_radius, least)
    if verdict.kind == "fail" and lobe_table is None and lobe_duration_at_200 is None:
        return not_applicable("ramp and lift alone do not tell the nose; the duration at 0.200 in or a table of the lobe would")
    return verdict.within_level("note") if lobe_table is None else verdict


CONTACT = """
camshaft: {base_circle_diameter: 1.430 in, core: %s, lobe_width: 0.45 in}
lifters: {kind: %s, foot_diameter: 0.750 in}
rockers: {ratio: 1.7}
intake:
  spring: {open_load: %s}  %s
  lobe:
    lift: 0.353 in
    duration_at_050: 231 deg
    advertised_duration: 281 deg
    advertised_check_height: 0.006 in
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="At full lift {what} presses on the nose with about {value}; keep {limit}.",
    fix="Stay under {load_to_stay_under:down} open, or take {cure}.",
    spared=("stock",),
    source="K. L. Johnson, Contact Mechanics, ch. 4; limits engineering judgement, no source",
    when={"camshaft_base_circle_diameter": given},
    points_at=("spring_open_load", "camshaft_core"),
    conforming=(CONTACT % ("billet_steel", "solid_roller", "600 lbf", ""), CONTACT % ("induction_hardened_iron", "hydraulic_roller", "380 lbf", ""),
                CONTACT % ("billet_steel", "solid_roller", "800 lbf", "") + TABLE),
    nonconforming=(CONTACT % ("billet_steel", "solid_roller", "1100 lbf", "# <-") + TABLE,
                   CONTACT % ("billet_steel", "solid_roller", "1100 lbf", "# <-"),
                   CONTACT % ("induction_hardened_iron", "hydraulic_roller", "620 lbf", "# <-") + TABLE,
                   CONTACT % ("billet_steel", "solid_flat", "330 lbf", "# <-")),
)
def lobe_contact_stress_is_bounded(
    lifter_kind: Choice, spring_open_load: Force, camshaft_core: Choice, lobe_contact_pressure: Pressure = None,
    lobe_nose_radius: Length = None, lifter_foot_diameter: Length = None, camshaft_lobe_width: Length = None,
    lobe_duration_at_200: Angle = None, rocker_ratio: Ratio = None, lobe_table: Table = None, *,
    flat_note: Pressure = q("1240 MPa"), flat_warning: Pressure = q("1450 MPa"),
    roller_note={"billet_steel": q("1700 MPa"), "iron": q("1350 MPa")},
    roller_warning={"billet_steel": q("2000 MPa"), "iron": q("1600 MPa")},
):
    """Where wheel or foot meets the nose the pressure is the highest in the engine; beyond what the core bears it pits.

    Reckoned at full lift with the engine barely turning, when nothing relieves the nose: inertia lightens it at speed.
    No handbook limit was found. 180 ksi (1240 MPa) is the level a standard flat-tappet wear test is run at; the figures
    for rollers are judgement, so that nothing here counts above a warning, and a nose that is only estimated is asked
    about at the upper figure, as a note.
    """
    if lobe_contact_pressure is None:
        roller = lifter_kind not in FLATS
        absent = [word for word, value, counts in (
            ("rocker_ratio", rocker_ratio, True), ("lifter_foot_diameter", lifter_foot_diameter, roller),
            ("camshaft_lobe_width", camshaft_lobe_width, roller), ("lobe_duration_at_200", lobe_duration_at_200, lobe_nose_radius is None),
        ) if counts and value is None]
        return lacking(*absent) if absent else not_applicable("the shape of the nose does not follow from what is written")
    if lifter_kind in FLATS:
        note, warning, power = flat_note, flat_warning, 3
        what, cure = "the foot", "a larger base circle, or rollers"
    else:
        row = "billet_steel" if camshaft_core == "billet_steel" else "iron"
        note, warning, power = roller_note[row], roller_warning[row], 2
        what, cure = "the wheel", "a wider or larger wheel" + ("" if row == "billet_steel" else ", or a steel core")
    verdict = at_most(lobe_contact_pressure, note=warning) if lobe_table is None else at_most(lobe_contact_pressure, warning=warning, note=note)
    return verdict.telling(what=what, cure=cure, load_to_stay_under=Force(spring_open_load * (verdict.goal / lobe_contact_pressure) ** power))
