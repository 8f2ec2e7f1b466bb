"""What a tightened joint bears: the pressure under its head, and heat."""

from buildlint.precedence import defer_to_maker
from buildlint.rulebook import *
from buildlint.tables.fasteners import WASHER_SPREAD
from buildlint.tables.joint_metals import ALUMINUM, BEARING_PRESSURE, HOT_ALUMINUM

PRESSED = """
joints:
  head:
    clamped: {material: %s, hole_diameter: 0.480 in}
    kind: stud
    thread: 7/16-20
    torque: 70 lbf-ft
    torque_given_for: moly_paste
    bearing_diameter: 0.625 in
    washer: {%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="{intended_preload} on this face makes {value} under it; {metal} bears {limit}.",
    fix="Use a wider or thicker hardened washer, {diameter_to_have:up} outside or more, or tighten less.",
    source="VDI 2230:2003, permitted bearing pressures; cast aluminum raised to the heat-treated row: common practice, no source",
    when={"bearing_pressure": given},
    points_at=("washer_outside_diameter", "bearing_diameter", "washer_kind"),
    conforming=(PRESSED % ("aluminum_356_t6", "kind: hardened_flat, outside_diameter: 0.812 in, inside_diameter: 0.455 in", ""), """
        joints:
          head: {thread: 7/16-20, torque: 70 lbf-ft, torque_given_for: moly_paste, bearing_diameter: 0.625 in, washer: {kind: none}, clamped: {material: cast_iron}}
        """),
    nonconforming=(PRESSED % ("aluminum_cast", "kind: hardened_flat, outside_diameter: 0.720 in, inside_diameter: 0.455 in", "# <-"), """
        joints:
          head: {thread: 7/16-20, torque: 70 lbf-ft, torque_given_for: moly_paste, bearing_diameter: 0.625 in, washer: {kind: none}, clamped: {material: aluminum_356_t6}}  # <-
        """, PRESSED % ("aluminum_356_t6", "kind: hardened_flat, outside_diameter: 0.812 in, inside_diameter: 0.455 in, thickness: 0.060 in", "# <-")),
)
def bearing_face_takes_the_pressure(
    bearing_pressure: Pressure, intended_preload: Force, clamped_material: Choice = None, clamped_pressure_limit: Pressure = None,
    washer_outside_diameter: Length = None, washer_inside_diameter: Length = None, clamped_hole_diameter: Length = None,
    diameter: Length = None, bearing_diameter: Length = None, washer_kind: Choice = None, washer_thickness: Length = None,
    washer_chamfer: Length = None, washer_chamfer_faces: Choice = None,
):
    """A face that presses harder than the casting bears sinks in, slowly and hot, and takes the clamp along.

    A small twelve-point nut turns easily and presses hard. The values hold cold; a hot aluminum head bears a seventh
    less, which is noted only, for half of all stud kits would fail that line.
    """
    limit = clamped_pressure_limit or BEARING_PRESSURE.get(clamped_material)
    if limit is None:
        return not_applicable("what the clamped metal bears is not known")
    hot = HOT_ALUMINUM if clamped_material in ALUMINUM and clamped_pressure_limit is None else None
    verdict = at_most(Pressure(bearing_pressure), warning=Pressure(limit), note=None if hot is None else Pressure(hot * limit))
    chamfer = 2 * (washer_chamfer or 0.0) if washer_chamfer_faces == "casting" else 0.0
    lies_on = 0.0 if washer_inside_diameter is None else washer_inside_diameter + chamfer
    inside = max(clamped_hole_diameter or 0.0, lies_on) or 1.1 * (diameter or 0.0)
    if limit <= 0:
        return not_applicable("the limit makes no sense")
    outside = (inside**2 + intended_preload / (hot or 1.0) / limit * 4 / 3.14159265) ** 0.5
    metal = (clamped_material or "the part").replace("_", " ") + (" that is hot" if verdict.level == "note" else "")
    if bearing_diameter is not None and washer_thickness is not None and bearing_diameter + WASHER_SPREAD * washer_thickness < outside:
        verdict.telling(thickness_to_have=Length((outside - bearing_diameter) / WASHER_SPREAD)).saying(
            fix="Use a hardened washer {diameter_to_have:up} outside and {thickness_to_have:up} thick or more, a nut with a wider face, or tighten less.")
    return verdict.telling(metal=metal, diameter_to_have=Length(outside))


HOT = """
build: {ambient_coldest: %s}
joints:
  head:
    {thread: 7/16-20, hole_thread: 7/16-14, strength_class: 190_ksi, torque_given_for: moly_paste,
     torque: %s, grip_length: %s, service_temperature: 230 degF, clamped: {material: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="{trouble}",
    fix="{remedy}",
    source="Bickford, Introduction to the Design and Behavior of Bolted Joints, ch. 11; expansion of the metals as tabled",
    when={"heat_preload_change": given},
    points_at=("torque", "service_temperature"),
    conforming=(HOT % ("10 degF", "65 lbf-ft", "3.4 in", "aluminum_356_t6", ""),
                HOT % ("10 degF", "65 lbf-ft", "3.4 in", "cast_iron", "")),
    nonconforming=HOT % ("10 degF", "80 lbf-ft", "1.2 in", "aluminum_356_t6", "# <-"),
)
def bolt_survives_heat_growth(
    heat_preload_change: Force, intended_preload: Force = None, yield_load: Force = None, cold_preload_change: Force = None,
    torque: Torque = None, service_temperature: Temperature = None, torque_source: Choice = None, maker_torque: Torque = None, *,
    warning_above: Fraction = q("1.0", "fraction"), note_above: Fraction = q("0.95", "fraction"),
    cold_loss: Fraction = q("0.10", "fraction"),
):
    """An aluminum head grows twice as much as its studs: hot, they are pulled tighter, on a cold morning they are looser.

    Sign and size follow from what is clamped: an iron head loosens a little when hot. The steady state is judged, with
    fastener and part equally warm; while warming up the part runs ahead of the bolt.
    """
    if intended_preload is None:
        return not_applicable("the tension is not known")
    hot = Force(intended_preload + heat_preload_change)
    if yield_load is not None and intended_preload < yield_load:
        verdict = at_most(hot, warning=Force(warning_above * yield_load), note=Force(note_above * yield_load))
        if verdict.kind == "fail":
            return defer_to_maker(verdict, torque, torque_source, maker_torque).telling(gain=Force(heat_preload_change)).saying(
                "Hot, the tension rises by {gain} to {value}; the fastener yields at {yield_load}.{maker}",
                "Tighten less when cold, use a longer or waisted fastener, or a stronger class.")
    if cold_preload_change is not None and cold_preload_change < 0:
        verdict = at_most(Force(-cold_preload_change), note=Force(cold_loss * intended_preload))
        if verdict.kind == "fail":
            return verdict.saying("On the coldest day the tension is {value} less than when tightened.",
                                  "Let the engine warm before it is loaded, or tighten nearer to the upper end of what the maker allows.")
    return passes()
