"""The seat as it is cut: width, place, runout, angle; and what the grinding left of the valve."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import LONG_RUNNING, RACING

WIDTH = """
build: {duty: %s, induction: %s}
exhaust:
  seat: {width: %s}  %s
"""
INTAKE = """
build: {duty: %s}
intake:
  seat: {width: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The {side_name} seat is {seat_width} wide, {trouble}; {low:up} to {high:down} is usual here.",
    fix="Cut it to {low:up} to {high:down}{way}, always from the finished guide.",
    source="a production sheet: 0.040 in intake, 0.070 in exhaust; trade press: 1/16 and 3/32 in; racing widths common practice, no source",
    points_at=("seat_width",),
    conforming=(WIDTH % ("street", "natural", "0.070 in", ""), WIDTH % ("marine", "natural", "0.080 in", ""), INTAKE % ("street", "0.060 in", ""),
                INTAKE % ("drag_race", "0.035 in", "")),
    nonconforming=(WIDTH % ("street", "natural", "0.050 in", "# <-"), WIDTH % ("street", "natural", "0.040 in", "# <-"),
                   WIDTH % ("street", "turbocharged", "0.065 in", "# <-"), WIDTH % ("street", "natural", "0.115 in", "# <-"),
                   INTAKE % ("street", "0.032 in", "# <-"), INTAKE % ("street", "0.022 in", "# <-"), INTAKE % ("street", "0.080 in", "# <-")),
)
def seat_width_suits_duty(
    seat_width: Length, side_name: Choice, duty: Choice = None, induction: Choice = None, boost_pressure: Pressure = None, *,
    error_below={"intake": q("0.025 in"), "exhaust": q("0.045 in")},
    warning_below={"intake": q("0.040 in"), "exhaust": q("0.060 in"), "intake_race": q("0.030 in"), "exhaust_race": q("0.055 in"),
                   "exhaust_hot": q("0.070 in")},
    note_above={"intake": q("0.065 in"), "exhaust": q("0.095 in")}, warning_above: Length = q("0.110 in"),
):
    """Most of the exhaust valve's heat leaves through its seat; a narrow one burns, a very wide one holds dirt and leaks.

    Factory sheets run 0.040 in on the intake and 0.060 to 0.080 on the exhaust, machine shops like 1/16 and 3/32, race
    engines go down to 0.030 for flow. Under boost or for long running the exhaust keeps 0.070, because of the heat. A
    wide seat does less harm than a narrow one, so that it is first a note.
    """
    boosted = induction in ("supercharged", "turbocharged") or (boost_pressure is not None and boost_pressure > 0)
    if side_name == "exhaust" and (boosted or duty in LONG_RUNNING):
        low = warning_below["exhaust_hot"]
    else:
        low = warning_below[f"{side_name}_race"] if duty in RACING else warning_below[side_name]
    high = note_above[side_name]
    verdict = within(seat_width, error=(error_below[side_name], None), warning=(low, warning_above), note=(None, high))
    wide = seat_width > high
    return verdict.telling(way=": narrow it with the top and throat cuts" if wide else "", low=Length(low), high=Length(high), trouble="wider than it need be" if wide else "so narrow that it burns" if verdict.level == "error" else "narrow")


PLACE = """
intake:
  seat: {contact_from_edge: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The contact on the valve's face begins {seat_contact_from_edge} inside its edge; {least:up} to {most:down} is right.",
    fix="{how}",
    source="1/32 in: trade press; limits common practice, no source",
    when={"seat_contact_from_edge": given},
    conforming=(PLACE % ("0.030 in", ""), PLACE % ("0.010 in", "")),
    nonconforming=(PLACE % ("0.005 in", "# <-"), PLACE % ("0.050 in", "# <-")),
)
def seat_contact_is_well_placed(seat_contact_from_edge: Length, *, least: Length = q("0.010 in"), most: Length = q("0.040 in")):
    """Too near the edge the thin rim burns, too far in the valve loses flow and its head gets hot."""
    verdict = within(seat_contact_from_edge, warning=(least, most))
    return verdict.telling(how="Take its outer edge away with the top cut, and cut the seat again until it is wide enough."
                           if verdict.facts.get("side") == "below" else
                           "Take its inner edge away with the throat cut, and cut the seat again until it is wide enough.")


RUNOUT = """
intake:
  seat: {runout: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The seat runs out {seat_runout} to its guide; {limit} is the most.",
    fix="Cut it again from a pilot that fits the finished guide.",
    source="a production sheet: 0.05 mm at most; target common practice, no source",
    conforming=(RUNOUT % ("0.001 in", ""), RUNOUT % ("0.0015 in", "")),
    nonconforming=(RUNOUT % ("0.0025 in", "# <-"), RUNOUT % ("0.06 mm", "# <-")),
)
def seat_is_concentric_with_guide(
    seat_runout: Length, *, error_above: Length = q("0.002 in"), note_above: Length = q("0.001 in"),
):
    """A seat beside its guide bends the stem at every landing until the head breaks off, and leaks until then."""
    return at_most(seat_runout, error=error_above, note=note_above)


ANGLES = """
intake:
  valve: {face_angle: 45 deg}
  seat: {angle: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="A seat of {seat_angle} under a valve face of {valve_face_angle} {trouble}.",
    fix="Cut the seat to the face's angle, or half a degree to a degree steeper.",
    source="a production sheet: face 45, seat 46 degrees; limits common practice, no source",
    points_at=("seat_angle", "valve_face_angle"),
    conforming=(ANGLES % ("46 deg", ""), ANGLES % ("45 deg", ""), ANGLES % ("45.5 deg", "")),
    nonconforming=(ANGLES % ("44 deg", "# <-"), ANGLES % ("30 deg", "# <-"), ANGLES % ("50 deg", "# <-")),
)
def seat_angle_suits_face(
    seat_angle: Angle, valve_face_angle: Angle, *,
    reverse_by: Angle = q("0.05 deg"), usual_to: Angle = q("1.0 deg"), error_above: Angle = q("2.0 deg"),
):
    """The valve should touch first at the outer edge of its seat, and both should have been cut for one angle.

    Half a degree to a degree of interference beds in; equal angles are cut on race engines. A seat shallower than the
    face touches inside, leaks and cokes. Thirty-degree valves on 45-degree seats have been ordered more than once.
    """
    interference = seat_angle - valve_face_angle
    if interference < -reverse_by:
        trouble = "touches on the inside" if interference >= -error_above else "is another angle altogether"
        return at_least(Angle(interference), Angle(0.0)).telling(trouble=trouble)
    return at_most(Angle(interference), error=error_above, note=usual_to).telling(
        trouble="is another angle altogether" if interference > error_above else "touches on a narrow line")


STEEP = """
build: {duty: %s}
intake:
  seat: {angle: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Seats of {seat_angle} wear fast in an engine for {duty}.",
    fix="Use 45 degree seats, or 30 on a low-lift intake.",
    source="trade press; common practice, no source",
    when={"seat_angle": given},
    points_at=("seat_angle",),
    conforming=(STEEP % ("street", "46 deg", ""), STEEP % ("drag_race", "55 deg", "")),
    nonconforming=STEEP % ("marine", "55 deg", "# <-"),
)
def seat_angle_suits_duty(seat_angle: Angle, duty: Choice = None, *, steep_from: Angle = q("50 deg")):
    """A steep seat flows at high lift and wedges: it wears, and the valve sinks. Fine where the heads come off often."""
    if duty in (None, "drag_race") or seat_angle < steep_from * (1 - 1e-9):
        return passes()
    return require(False)


MARGIN = """
build: {induction: %s}
exhaust:
  valve: {margin: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The {side_name} valve has {valve_margin} of margin above its face; keep {limit}.",
    fix="Fit new valves; do not grind these again.",
    source="a production sheet: 1.0 mm intake and 1.5 mm exhaust when new, 0.5 and 1.0 mm at the end; the rest common practice, no source",
    points_at=("valve_margin",),
    conforming=(MARGIN % ("natural", "0.060 in", ""), MARGIN % ("turbocharged", "0.080 in", ""), "intake: {valve: {margin: 0.050 in}}"),
    nonconforming=(MARGIN % ("natural", "0.055 in", "# <-"), MARGIN % ("turbocharged", "0.070 in", "# <-"),
                   MARGIN % ("natural", "0.035 in", "# <-"), "intake: {valve: {margin: 0.035 in}}  # <-", "intake: {valve: {margin: 0.025 in}}  # <-"),
)
def valve_margin_is_thick_enough(
    valve_margin: Length, side_name: Choice, induction: Choice = None, boost_pressure: Pressure = None, nitrous_power: Power = None, *,
    error_below={"intake": q("0.030 in"), "exhaust": q("0.040 in")},
    warning_below={"intake": q("1.0 mm"), "exhaust": q("1.5 mm")},
    boosted_note_below={"intake": q("0.060 in"), "exhaust": q("0.080 in")},
):
    """A thin edge glows, fires the mixture early and burns away.

    New valves come with about 0.040 in on the intake and 0.060 to 0.080 on the exhaust. Boost and nitrous want the
    upper end, as a note, since many new parts have no more.
    """
    hot = induction in ("supercharged", "turbocharged") or (boost_pressure is not None and boost_pressure > 0) or (
        nitrous_power is not None and nitrous_power > 0)
    note = boosted_note_below[side_name] if hot else None
    return at_least(valve_margin, error=error_below[side_name], warning=warning_below[side_name], note=note)
