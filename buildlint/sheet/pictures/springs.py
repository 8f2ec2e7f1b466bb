"""Spring load against valve lift, with the lifts and loads that bound it; and the pushrod's load against what it carries."""

from ...mechanics.load_table import load_at
from ...model import FAIL
from ...render.text import joined
from .drawing import GOOD, LIMIT, SIDE_LOOK, SOFT, Wanting, asked, board, drawn, hover, judged, limit_in, name_line


def spring_load(build):
    """How the spring's load climbs with lift: seat, full lift, coil bind, and the limits of rocker and pushrod."""
    parts, needs = [], {}
    for side in build.spec.sides:
        try:
            parts.append((side, *asked(build, ("spring_seat_load", "spring_open_load", "valve_lift"), side)))
        except Wanting as wanting:
            needs.update(dict.fromkeys(wanting.needs))
    if not parts:
        raise Wanting(needs)
    figure, all_axes = board(len(parts), shared=True)
    told, hovers, passed = [], {}, []
    for axes, (side, seat, full, lift) in zip(all_axes if len(parts) > 1 else [all_axes], parts):
        told.append(_one_spring(build, axes, side, seat, full, lift, hovers, passed))
    stands = f"it does not keep {joined(dict.fromkeys(passed))}" if passed else "it keeps every limit that is known"
    return drawn(figure, "spring-load", f"Spring load against lift: {stands}", " ".join(told), hovers)


def _one_spring(build, axes, side, seat, full, lift, hovers, passed):
    force, length = build.unit(full), build.unit(lift)
    seat_load, open_load, top = build.number(seat, force), build.number(full, force), build.number(lift)
    points = _points(build, side, seat, full, lift, force, length)
    line, = axes.plot(*zip(*points), color=SIDE_LOOK[side.name][0])
    hover(line, f"{side.name} spring: {build.shown(seat)} on the seat, {build.shown(full)} at {build.shown(lift)}", hovers)
    axes.plot([0, top], [seat_load, open_load], "o", color=SIDE_LOOK[side.name][0])
    name_line(axes, (0, seat_load), f"seat {build.shown(seat)}", dy=-12)
    name_line(axes, (top, open_load), f"open {build.shown(full)} at {build.shown(lift)}", ha="right", dx=-6)
    highest, told = open_load, [f"{side.name.capitalize()}: {build.shown(seat)} on the seat, {build.shown(full)} at {build.shown(lift)} lift."]
    bind = build.value("spring_coil_bind_margin", side)
    if bind is not None:
        at = top + build.number(bind, length)
        axes.axvline(at, color=LIMIT, linestyle=":")
        name_line(axes, (at, 0), "coils touch", LIMIT, dx=-4, dy=6, ha="right", rotation=90)
        told.append(f"The coils touch {build.shown(bind)} later.")
        asked_for = judged(build, "spring-stays-clear-of-coil-bind", (side.name,))
        if float(bind.data) <= 0 or (asked_for is not None and asked_for.kind == FAIL):
            passed.append(f"the {side.name}'s gap before coil bind")
    ratio = build.datum("rocker_ratio", side)
    buckling = build.value("pushrod_buckling_load", side)
    levels = []
    rocker = judged(build, "rocker-carries-open-load", (side.name,))
    if rocker is not None:
        if rocker.kind == FAIL:
            passed.append(f"the {side.name}'s limit by rocker")
        levels.append((limit_in(rocker, "force", force), "rocker", "--"))
    margin = judged(build, "pushrod-carries-static-load", (side.name,))
    if ratio and buckling is not None and margin is not None:
        levels.append((build.number(buckling, force) / ratio / margin.limit, f"pushrod, bows at {margin.limit:g} times this", "-."))
    for number, (level, what, dashes) in enumerate(levels):
        if level < open_load * (1 - 1e-9):
            passed.append(f"the {side.name}'s limit by {what.partition(',')[0]}")
        if level <= 3 * open_load:
            axes.axhline(level, color=LIMIT, linestyle=dashes, linewidth=1.2)
            name_line(axes, (0, level), f"{what} {level:.0f} {force}", LIMIT, dy=2 if number == 0 else -2, va="bottom" if number == 0 else "top")
            highest = max(highest, level)
        told.append(f"Limit by {what}: {level:.0f} {force}.")
    axes.set(title=side.name, xlabel=f"valve lift, {length}", ylabel=f"load, {force}", xlim=(0, None), ylim=(0, highest * 1.15))
    return " ".join(told)


def _points(build, side, seat, full, lift, force, length):
    """(lift, load) along the travel: through the tested loads where there are any, else straight."""
    table, height = build.value("spring_load_table", side), build.value("spring_installed_height", side)
    top = build.number(lift)
    if table is None or height is None:
        return [(0.0, build.number(seat, force)), (top, build.number(full, force))]
    from ...quantity_display import in_unit

    points = []
    for step in range(21):
        load = load_at(table.data, float(height.data) - float(lift.data) * step / 20)
        if load == load:
            points.append((top * step / 20, in_unit(float(load), "force", force)))
    return points if len(points) > 1 else [(0.0, build.number(seat, force)), (top, build.number(full, force))]


def pushrod_capacity(build):
    """What pushes on each pushrod beside what it carries before it bows."""
    rows, needs = [], {}
    for side in build.spec.sides:
        try:
            design, capacity = asked(build, ("pushrod_design_load", "pushrod_buckling_load"), side)
        except Wanting as wanting:
            needs.update(dict.fromkeys(wanting.needs))
            continue
        rows.append((side, build.value("pushrod_static_load", side), design, capacity))
    if not rows:
        raise Wanting(needs)
    figure, axes = board(height=0.9 + 0.85 * len(rows))
    hovers, told = {}, []
    unit = build.unit(rows[0][2])
    for place, (side, static, design, capacity) in enumerate(rows):
        load, most = build.number(design, unit), build.number(capacity, unit)
        hover(axes.barh(place, load, 0.5, color=SIDE_LOOK[side.name][0])[0], f"{side.name}: {build.shown(design)} while running", hovers)
        if static is not None:
            standing = build.number(static, unit)
            axes.plot([standing, standing], [place - 0.25, place + 0.25], color="#ffffff", linestyle=":")
            name_line(axes, (standing, place - 0.25), f"standing still {build.shown(static)}", SOFT, ha="right", dx=0, dy=1)
        axes.plot([most, most], [place - 0.4, place + 0.4], color=LIMIT, linewidth=2.5)
        name_line(axes, (most, place), f"bows at {build.shown(capacity)}", LIMIT, va="center", dy=0)
        name_line(axes, (load, place), f"running {build.shown(design)}", GOOD if load < most else LIMIT, va="center", dy=0)
        told.append(f"{side.name.capitalize()}: {build.shown(design)} while running against {build.shown(capacity)}, "
                    f"{load / most * 100:.0f} % of the column.")
    axes.set(yticks=range(len(rows)), yticklabels=[row[0].name for row in rows], xlabel=f"push, {unit}", xlim=(0, None), ylim=(len(rows) - 0.4, -0.6))
    axes.margins(x=0.25)
    axes.grid(axis="y", visible=False)
    axes.set_xlim(0, max(axes.get_xlim()[1], *(build.number(row[3], unit) for row in rows)) * 1.28)
    most = max(float(design.data) / float(capacity.data) for _, _, design, capacity in rows)
    return drawn(figure, "pushrod", f"Pushrod: the running load is {most * 100:.0f} % of what makes the column bow", " ".join(told), hovers)
