"""Crowns: valve pockets against ring groove and head, domes, and which way the pistons face."""

from buildlint.rulebook import *

POCKET = """
build: {induction: %s}
intake:
  pocket: {edge_to_groove: %s, floor_thickness: 0.220 in}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="Between the {side_name} pocket and the top ring's groove {value} of metal is left; keep {limit}.",
    fix="Pistons whose top ring sits lower, a shallower pocket moved inward, or a smaller valve.",
    source="common practice, no source",
    when={"pocket_edge_to_groove": given},
    points_at=("pocket_edge_to_groove",),
    conforming=(POCKET % ("natural", "0.120 in", ""), POCKET % ("natural", "0.080 in", "")),
    nonconforming=(POCKET % ("natural", "0.040 in", "# <-"), POCKET % ("natural", "0.070 in", "# <-")),
)
def valve_pocket_clears_ring_groove(
    pocket_edge_to_groove: Length, side_name: Choice, *, warning_below: Length = q("0.080 in"), error_below: Length = q("0.050 in"),
):
    """Where the pocket's edge comes near the groove the land is a thin bridge; it cracks, or the ring sticks there.

    Cutting pockets deeper after the fact is how it usually happens.
    """
    return at_least(pocket_edge_to_groove, warning=warning_below, error=error_below)


FLOOR = """
build: {induction: %s}
intake:
  pocket: {floor_thickness: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Under the {side_name} pocket {value} of crown is left; {use} wants {limit}.",
    fix="Pistons with a thicker crown, or shallower pockets with less lift or an earlier or later cam.",
    source="common practice, no source",
    when={"pocket_floor_thickness": given},
    points_at=("pocket_floor_thickness",),
    conforming=(FLOOR % ("natural", "0.160 in", ""), FLOOR % ("turbocharged", "0.210 in", "")),
    nonconforming=(FLOOR % ("natural", "0.130 in", "# <-"), FLOOR % ("turbocharged", "0.180 in", "# <-")),
)
def pocket_floor_keeps_thickness(
    pocket_floor_thickness: Length, side_name: Choice, induction: Choice = None, nitrous_power: Power = None, *,
    natural: Length = q("3.8 mm"), boosted: Length = q("5.1 mm"),
):
    """The floor of a pocket is the thinnest and hottest spot of the crown; it sags or burns through first."""
    forced = induction in ("supercharged", "turbocharged") or nitrous_power is not None and nitrous_power > 0
    return at_least(pocket_floor_thickness, boosted if forced else natural).telling(use="boost or nitrous" if forced else "any engine")


LAYOUT = """
heads: {valve_order: %s}
pistons: {pocket_layout: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="Pockets and valves do not meet: along the bank the head has {head}, the pistons {pistons}; {trouble}.",
    fix="Order pistons by their place, left and right hand, or ones with pockets for both valves in either place.",
    source="geometry",
    when={"piston_pocket_layout": given},
    points_at=("piston_pocket_layout", "head_valve_order"),
    conforming=(LAYOUT % ("[e, i, i, e, e, i, i, e]", "[e, i, i, e, e, i, i, e]", ""), LAYOUT % ("[i, e, i, e]", "[i, e, i, e]", "")),
    nonconforming=(LAYOUT % ("[e, i, i, e, e, i, i, e]", "[e, i, e, i, e, i, e, i]", "# <-"), LAYOUT % ("[e, i, i, e]", "[e, i]", "# <-")),
)
def valve_pockets_match_the_head(piston_pocket_layout: List, head_valve_order: List):
    """The larger pocket must stand under the intake; four pistons alike fit only every second cylinder of many heads."""
    pistons, head = [str(valve) for valve in piston_pocket_layout], [str(valve) for valve in head_valve_order]
    wrong = sorted({place // 2 + 1 for place, pair in enumerate(zip(pistons, head)) if pair[0] != pair[1]})
    if len(pistons) != len(head):
        trouble = f"{len(pistons)} pockets for {len(head)} valves"
        return require(False).telling(head="-".join(head), pistons="-".join(pistons), trouble=trouble).saying(
            fix="Write one pocket for each valve of the bank, front to rear; leave pocket_layout out where every piston has pockets for "
                "both valves in either place.")
    elif wrong:
        trouble = f"wrong at place {', '.join(map(str, wrong))} of the bank"
    else:
        return passes()
    return require(False).telling(head="-".join(head), pistons="-".join(pistons), trouble=trouble)


DOME = """
engine: {layout: v, cylinders: 8}
pistons: {crown: dome, fits_bank: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="The domed pistons are all for the {piston_fits_bank} bank; in the other the dome stands away from the plug.",
    fix="Order them as a pair: half for the left bank and half for the right.",
    source="geometry",
    when={"piston_crown": given, "layout": ("v", "flat")},
    points_at=("piston_fits_bank",),
    conforming=(DOME % ("pair", ""), DOME % ("both", "")),
    nonconforming=DOME % ("left", "# <-"),
)
def piston_dome_faces_the_plug(piston_crown: Choice, piston_fits_bank: Choice = None):
    """A dome is cut for one chamber: plug side and valve side. Turned round it hits the head, or shrouds the flame."""
    if piston_crown != "dome":
        return not_applicable("no dome")
    return lacking("piston_fits_bank") if piston_fits_bank is None else one_of(piston_fits_bank, ("pair", "both"))


OFFSET = """
build: {duty: %s}
pistons: {pin_offset_to_thrust_side: %s, mark_faces: front}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="assembly",
    says="The pins stand {away} away from the major thrust side; in {duty} duty that makes the pistons slap.",
    fix="Turn the pistons so that the pin lies toward the major thrust side (left seen from the front of a clockwise engine), or say why under "
        "notes and have it permitted.",
    source="offset toward the major thrust side by about 1/16 in seen; common practice",
    when={"piston_pin_offset_to_thrust_side": given},
    points_at=("piston_pin_offset_to_thrust_side",),
    conforming=(OFFSET % ("street", "0.060 in", ""), OFFSET % ("street", "0 in", "")),
    nonconforming=(OFFSET % ("street", "-0.060 in", "# <-"), OFFSET % ("drag_race", "-0.060 in", "# <-")),
)
def pin_offset_direction_is_stated(
    piston_pin_offset_to_thrust_side: Length, piston_mark_faces: Choice, duty: Choice = None, *, centered_within: Length = q("0.005 in"),
):
    """An offset pin tips the piston across the bore before the pressure comes, which keeps it quiet.

    Racers turn it round for a little less side load and live with the noise, which is only noted. Which way the mark
    faces has to be written, since it is what decides.
    """
    if piston_pin_offset_to_thrust_side >= -centered_within:
        return passes()
    racing = duty in ("road_race", "oval_race", "drag_race")
    return require(False, "note" if racing else "warning").telling(away=Length(-piston_pin_offset_to_thrust_side))


@rule(
    scope="cylinder",
    level="reminder",
    due="assembly",
    says="Every piston's notch or arrow points as its maker says, valve pockets to their valves, oil squirt of the rods to its side.",
    fix="Look at each piston when it is down in the bore, and once more along the whole bank.",
    source="common practice, no source",
    when={"piston_compression_height": given},
    points_at=("piston_mark_faces", "piston_compression_height"),
    conforming="pistons: {compression_height: 1.125 in}",
)
def piston_mark_points_as_instructed(piston_compression_height: Length):
    """A piston turned round has its pin offset, its pockets and its skirt on the wrong side, and goes in just as well."""
    return review()


CROWN = """
build: {induction: %s}
pistons: {crown_thickness: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The crown is {value} thick where it is thinnest; {use} wants {limit}.",
    fix="Pistons with a thicker crown; do not cut dishes, pockets or crowns of these any further.",
    source="common practice, no source; as under the pockets",
    when={"piston_crown_thickness": given},
    conforming=(CROWN % ("natural", "0.160 in", ""), CROWN % ("turbocharged", "0.210 in", "")),
    nonconforming=(CROWN % ("natural", "0.130 in", "# <-"), CROWN % ("turbocharged", "0.180 in", "# <-")),
)
def piston_crown_keeps_thickness(
    piston_crown_thickness: Length, induction: Choice = None, nitrous_power: Power = None, *, natural: Length = q("3.8 mm"),
    boosted: Length = q("5.1 mm"),
):
    """Gas presses on a crown with tons and heats it from one side; a thin one sags until the ring lands go with it.

    Crowns cut down to lower the compression or to make room for a stroke are where it happens.
    """
    forced = induction in ("supercharged", "turbocharged") or nitrous_power is not None and nitrous_power > 0
    return at_least(piston_crown_thickness, boosted if forced else natural).telling(use="boost or nitrous" if forced else "any engine")
