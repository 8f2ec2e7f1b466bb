"""How far the valves open through a turn of the engine, and how near they come to the piston."""

import math

from ...mechanics import lobe, overlap
from ...mechanics.lobe_table import tabulated
from ...quantity_display import in_unit
from .drawing import GOOD, LIMIT, SIDE_LOOK, SOFT, Wanting, asked, board, drawn, hover, judged, limit_in, name_line

DEGREE = math.pi / 180
OPEN = 0.0002  # m of lift from which a valve counts as open in the title


def _curve(build, side):
    """(lift of the lobe over the cam angle from its nose, whether it was estimated)."""
    table = build.datum("lobe_table", side)
    if table:
        return tabulated(table), False
    lift, width, fullness = (value.data for value in asked(build, ("lobe_lift", "lobe_half_width", "lobe_fullness"), side))
    return lobe.synthetic(float(lift), float(width), float(fullness) + 2), True


def _opening(build, side):
    """(valve lift in m over the crank angle in rad after overlap top, whether it was estimated)."""
    ratio, lash, centerline = asked(build, ("rocker_ratio", "lash_running", "lobe_centerline_in_engine"), side)
    curve, estimated = _curve(build, side)
    nose = float(centerline.data) if side.name == "intake" else -float(centerline.data)
    return overlap.valve_opening(curve, float(ratio.data), float(lash.data), nose), estimated


def _each_side(build, what):
    found, needs = [], {}
    for side in build.spec.sides:
        try:
            found.append((side, what(build, side)))
        except Wanting as wanting:
            needs.update(dict.fromkeys(wanting.needs))
    if not found:
        raise Wanting(needs)
    return found


def lift_curves(build):
    """Both valves through one exhaust and one intake stroke."""
    sides = _each_side(build, _opening)
    figure, axes = board()
    hovers, told = {}, []
    both = [angle for angle in range(-270, 271) if len(sides) == 2 and all(opening(angle * DEGREE) > OPEN for _, (opening, _) in sides)]
    for side, (opening, estimated) in sides:
        unit = build.unit(build.value("valve_lift", side) or build.value("lobe_lift", side))
        angles = list(range(-270, 271, 2))
        lifts = [in_unit(opening(angle * DEGREE), "length", unit) for angle in angles]
        color, dashes = SIDE_LOOK[side.name]
        top = max(lifts)
        at = angles[lifts.index(top)]
        line, = axes.plot(angles, lifts, color=color, linestyle=dashes)
        hover(line, f"{side.name}: {top:.3f} {unit} at {abs(at)} degrees {'after' if at > 0 else 'before'} overlap top", hovers)
        name_line(axes, (at, top), f"{side.name} {top:.3f} {unit}", color, ha="center", dx=0)
        told.append(f"{side.name.capitalize()}: {top:.3f} {unit} at {abs(at)} degrees {'after' if at > 0 else 'before'} overlap top"
                    + (", lobe estimated from its durations." if estimated else ", lobe from its table."))
    axes.axvline(0, color=SOFT, linewidth=0.8)
    axes.set(xlabel="crank angle after overlap top, deg", ylabel=f"valve lift, {unit}", xticks=range(-270, 271, 90), ylim=(0, None))
    axes.margins(y=0.15)
    axes.set_ylim(0, axes.get_ylim()[1] * 1.05)
    title = f"both valves are open together for {len(both) - 1} degrees round overlap top" if len(both) > 1 else "how far each valve opens, and when"
    return drawn(figure, "lift", f"Valve lift: {title}", " ".join(told), hovers)


def _gap(build, side):
    """(gap in m over the crank angle in rad, smallest from, to, whether it was estimated)."""
    opening, estimated = _opening(build, side)
    drops = build.datum("drop_table", side)
    if drops:
        gap = overlap.gap_to_drop_table(drops)
    else:
        throw, rod, at_top, axis = (float(value.data) for value in asked(
            build, ("crank_throw", "rod_length", "valve_to_piston_at_top", "valve_axis_angle"), side))
        offset = build.datum("piston_pin_offset_to_thrust_side") or 0.0
        if not 0 < throw < rod:
            raise Wanting(why="the rod is shorter than the crank's throw")
        gap = overlap.gap_to_piston(at_top, throw, rod, float(offset), axis, build.datum("pocket_depth", side) is None)
    return (lambda angle: gap(angle, opening(angle))), estimated


def piston_to_valve(build):
    """Gap between piston and each valve around overlap top, with its minimum and what is asked."""
    sides = _each_side(build, _gap)
    figure, axes = board()
    hovers, told, lowest, short = {}, [], [], False
    unit = build.unit(build.value("piston_gap", sides[0][0]) or build.value("crank_throw"))
    for side, (gap, estimated) in sides:
        angles = [angle for angle in range(-60, 61) if gap(angle * DEGREE) == gap(angle * DEGREE)]
        gaps = [in_unit(gap(angle * DEGREE), "length", unit) for angle in angles]
        if not gaps:
            continue
        color, dashes = SIDE_LOOK[side.name]
        window = [(value, angle) for value, angle in zip(gaps, angles) if (-30 <= angle <= 60 if side.name == "intake" else -60 <= angle <= 30)]
        least, at = min(window)
        line, = axes.plot(angles, gaps, color=color, linestyle=dashes)
        hover(line, f"{side.name}: least gap {least:.3f} {unit} at {at} degrees after overlap top", hovers)
        axes.plot([at], [least], "o", color=color)
        name_line(axes, (at, least), f"{side.name} {least:.3f} {unit} at {at} deg", color, dy=22 if side.name == "intake" else 8,
                  ha="left" if side.name == "intake" else "right", dx=30 if side.name == "intake" else -30)
        lowest.append(least)
        sentence = (f"{side.name.capitalize()}: least gap {least:.3f} {unit} at {abs(at)} degrees {'after' if at >= 0 else 'before'} "
                    f"overlap top{', lobe estimated' if estimated else ''}.")
        written = build.value("piston_gap", side)
        if written is not None and written.formula is None:
            sentence += f" Written or measured: {build.shown(written)}."
            axes.axhline(build.number(written, unit), color=GOOD, linestyle=dashes, linewidth=0.9)
            name_line(axes, (-60 if side.name == "intake" else 60, build.number(written, unit)), f"{side.name} as measured {build.shown(written)}",
                      GOOD, ha="left" if side.name == "intake" else "right", dx=0, dy=1)
        wanted = judged(build, "piston-clears-the-valve", (side.name,))
        if wanted is not None:
            level = limit_in(wanted, "length", unit)
            short = short or wanted.kind == "fail"
            axes.axhline(level, color=LIMIT, linestyle=":", linewidth=1.2)
            name_line(axes, (-60 if side.name == "intake" else 60, level), f"{side.name} at least {level:.3f} {unit}", LIMIT,
                      ha="left" if side.name == "intake" else "right", dx=0, dy=1)
            sentence += f" At least {level:.3f} {unit} is asked."
        told.append(sentence)
    if not told:
        raise Wanting(why="no gap can be reckoned around overlap top")
    axes.axvline(0, color=SOFT, linewidth=0.8)
    axes.set(xlabel="crank angle after overlap top, deg", ylabel=f"gap, {unit}", ylim=(min(0.0, *lowest) if min(lowest) < 0 else 0, max(lowest) * 2.6))
    return drawn(figure, "piston-to-valve", f"Piston to valve: the closest pass is {min(lowest):.3f} {unit}{', less than is asked' if short else ''}", " ".join(told), hovers)
