"""Whether the figures on a cam card agree with each other: events, durations, centerlines, separation, overlap."""

from buildlint.rulebook import *

CARD = """
intake:
  lobe:
    duration_at_050: %s  %s
    opens_before_top_at_050: 6.5 deg
    closes_after_bottom_at_050: 44.5 deg
    centerline: %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{what} is written as {value}, but the events give {limit}.",
    fix="Read the card again: opening, closing and duration must be of one check height. Correct the figure that was mistyped.",
    source="definition of the events; limits common practice, no source",
    compares=("lobe_duration_at_050", "lobe_advertised_duration"),
    points_at=("lobe_duration_at_050", "lobe_advertised_duration"),
    conforming=(CARD % ("231 deg", "", "109 deg"), CARD % ("232 deg", "", "110 deg")),
    nonconforming=(CARD % ("233 deg", "# <-", "109 deg"), CARD % ("241 deg", "# <-", "109 deg"), """
        exhaust:
          lobe: {advertised_duration: 284 deg, opens_before_bottom_advertised: 81.5 deg, closes_after_top_advertised: 27.5 deg}  # <-
        """),
)
def cam_events_match_durations(
    lobe_duration_at_050_written: Angle = None, lobe_duration_at_050_computed: Angle = None,
    lobe_advertised_duration_written: Angle = None, lobe_advertised_duration_computed: Angle = None,
    lobe_centerline_written: Angle = None, lobe_centerline_of_events: Angle = None, lobe_symmetry: Choice = None, *,
    warning_beyond: Angle = q("1 deg"), error_beyond: Angle = q("3 deg"), asymmetric_allowance: Angle = q("2 deg"),
):
    """A card whose events and durations disagree describes two cams, and one of them would be degreed in.

    Usually an event was read at another check height. A degree is rounding. On an asymmetric lobe the middle of
    the events is not the middle of the nose, so the centerline may differ by two degrees more.
    """
    worst = None
    allowance = asymmetric_allowance if lobe_symmetry == "asymmetric" else 0.0
    for what, word, written, computed, more in (
        ("The duration at 0.050 in", "lobe_duration_at_050", lobe_duration_at_050_written, lobe_duration_at_050_computed, 0.0),
        ("The advertised duration", "lobe_advertised_duration", lobe_advertised_duration_written,
         lobe_advertised_duration_computed, 0.0),
        ("The centerline", "lobe_centerline", lobe_centerline_written, lobe_centerline_of_events, allowance),
    ):
        if written is None or computed is None:
            continue
        off = abs(written - computed) - more
        verdict = at_most(Angle(max(0.0, off)), warning=warning_beyond, error=error_beyond)
        if worst is None or off > worst[0]:
            verdict.comparing(Angle(written, "deg"), Angle(computed, "deg"))
            worst = off, verdict.telling(what=what).at(word)
    return worst[1] if worst else not_applicable("no events stand beside a duration or a centerline")


LINES = """
camshaft: {lobe_separation: %s, ground_advance: %s}  %s
intake:
  lobe: {centerline: 109 deg}
exhaust:
  lobe: {centerline: 117 deg}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The {what} is written as {value}, but the centerlines of {intake_lobe_centerline} and {exhaust_lobe_centerline} "
         "give {limit}.",
    fix="Separation is the mean of both centerlines; advance is separation less the intake centerline. Correct the one that "
        "was mistyped.",
    source="definition; limits common practice, no source",
    compares=("lobe_centerline",),
    conforming=(LINES % ("113 deg", "4 deg", ""), LINES % ("114 deg", "4 deg", ""), LINES % ("113 deg", "3 deg", "")),
    nonconforming=(LINES % ("115 deg", "4 deg", "# <-"), LINES % ("108 deg", "4 deg", "# <-"), LINES % ("113 deg", "0 deg", "# <-")),
)
def lobe_separation_matches_centerlines(
    camshaft_lobe_separation: Angle = None, lobe_separation_from_centerlines: Angle = None,
    camshaft_ground_advance: Angle = None, camshaft_advance_from_centerlines: Angle = None,
    intake_lobe_centerline: Angle = None, exhaust_lobe_centerline: Angle = None, *,
    warning_beyond: Angle = q("1 deg"), error_beyond: Angle = q("3 deg"),
):
    """Separation, advance and the two centerlines are three facts written as four: one of them can be checked.

    The intake centerline is what the engine is degreed to, so a slip here ends in the engine.
    """
    worst = None
    for what, word, written, computed in (
        ("lobe separation", "camshaft_lobe_separation", camshaft_lobe_separation, lobe_separation_from_centerlines),
        ("ground advance", "camshaft_ground_advance", camshaft_ground_advance, camshaft_advance_from_centerlines),
    ):
        if written is None or computed is None:
            continue
        off = abs(written - computed)
        verdict = at_most(Angle(off), warning=warning_beyond, error=error_beyond)
        if worst is None or off > worst[0]:
            verdict.comparing(Angle(written, "deg"), Angle(computed, "deg"))
            worst = off, verdict.telling(what=what).at(word)
    return worst[1] if worst else not_applicable("separation and centerlines do not stand side by side")


USUAL = """
build: {duty: %s, induction: %s}
camshaft: {lobe_separation: %s, ground_advance: %s}  # <-
intake:
  lobe: {duration_at_050: 231 deg}
exhaust:
  lobe: {duration_at_050: 239 deg}
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="{what} is {value}; usual{where} is {low:up} to {high:down}.",
    fix="Make sure of the figure. If it is meant, say why under notes: the next hand will ask.",
    source="common practice, no source",
    points_at=("camshaft_lobe_separation", "intake_lobe_centerline"),
    conforming=((USUAL % ("street_strip", "natural", "113 deg", "4 deg")).replace("  # <-", ""),
                (USUAL % ("street", "turbocharged", "115 deg", "3 deg")).replace("  # <-", "")),
    nonconforming=(USUAL % ("street", "natural", "101 deg", "0 deg"), USUAL % ("street_strip", "natural", "113 deg", "9 deg"),
                   USUAL % ("street_strip", "turbocharged", "108 deg", "2 deg"), USUAL % ("stock", "natural", "113 deg", "4 deg")),
)
def cam_timing_is_usual(
    intake_lobe_centerline: Angle = None, camshaft_lobe_separation: Angle = None, lobe_separation_from_centerlines: Angle = None,
    camshaft_advance_from_centerlines: Angle = None, overlap_at_050: Angle = None, duty: Choice = None,
    induction: Choice = None, *,
    centerline=(q("98 deg"), q("118 deg")), separation=(q("102 deg"), q("120 deg")), advance=(q("-8 deg"), q("8 deg")),
    overlap={
        "stock": (q("-45 deg"), q("-5 deg")), "street": (q("-30 deg"), q("15 deg")), "street_strip": (q("0 deg"), q("40 deg")),
        "road_race": (q("0 deg"), q("70 deg")), "oval_race": (q("0 deg"), q("70 deg")), "drag_race": (q("20 deg"), q("100 deg")),
        "marine": (q("-40 deg"), q("10 deg")), "towing": (q("-45 deg"), q("10 deg")),
    },
    turbo_overlap_below: Angle = q("15 deg"),
):
    """Timing far from the usual is either a special cam or a slip of the pen; both are worth a second look.

    The bands are wide and from practice. A turbocharger pushes exhaust back through a long overlap; a
    supercharger blows the charge out of it.
    """
    found = lobe_separation_from_centerlines if camshaft_lobe_separation is None else camshaft_lobe_separation
    asked = [("The intake centerline", "", intake_lobe_centerline, centerline), ("The lobe separation", "", found, separation),
             ("The advance ground into the cam", "", camshaft_advance_from_centerlines, advance)]
    if induction == "turbocharged":
        asked.append(("The overlap at 0.050 in", " under a turbocharger", overlap_at_050, (q("-60 deg"), turbo_overlap_below)))
    elif duty in overlap:
        asked.append(("The overlap at 0.050 in", f" for {duty.replace('_', ' ')}", overlap_at_050, overlap[duty]))
    asked = [row for row in asked if row[2] is not None]
    if not asked:
        return not_applicable("no cam timing is written yet")
    for what, where, value, (low, high) in asked:
        verdict = within(Angle(value, "deg"), low, high)
        if verdict.kind == "fail":
            return verdict.telling(what=what, where=where, low=Angle(low, "deg"), high=Angle(high, "deg"))
    return passes()
