"""Planned bands and measured points of the clearances, for each cylinder and journal."""

from .drawing import BAND, DEMAND, LIMIT, SOFT, Wanting, drawn, hover

# (title, words as seen from the build)
ROWS = (
    ("main bearings", "main_bearing_clearance"), ("rod bearings", "rod_bearing_clearance"), ("cam bearings", "cam_bearing_clearance"),
    ("piston to wall", "piston_wall_clearance"), ("rod side", "rod_side_clearance"), ("top ring end gap", "top_ring_end_gap"),
    ("second ring end gap", "second_ring_end_gap"), ("intake stem in guide", "intake_guide_stem_clearance"),
    ("exhaust stem in guide", "exhaust_guide_stem_clearance"), ("intake piston to valve", "intake_piston_gap"),
    ("exhaust piston to valve", "exhaust_piston_gap"), ("quench gap", "quench_gap"),
)


def bands(build):
    """Each clearance in a small frame of its own: the plan as a line, its tolerance as a band, what was measured as points.

    A plan alone, without tolerance and with nothing measured, is a number and no picture.
    """
    found = [(title, build.value(word)) for title, word in ROWS]
    found = [(title, value) for title, value in found if value is not None]
    if not found:
        raise Wanting(dict.fromkeys(path for _, word in ROWS[:4] for path in build.missing(word)))
    found = [(title, value) for title, value in found if value.elements or getattr(value.plan, "low", None) is not None]
    if not found:
        raise Wanting(why="a tolerance beside a clearance, or what was measured, such as {plan: 0.0025 in +/- 0.0003 in, measured: [...]}")
    columns = 4
    rows = -(-len(found) // columns)
    from matplotlib.figure import Figure

    figure = Figure(figsize=(8.6, 2.1 * rows), layout="constrained")
    hovers, told, outside = {}, [], []
    for place, (title, value) in enumerate(found):
        told.append(_one(build, figure.add_subplot(rows, columns, place + 1), title, value, hovers, outside))
    stands = f"{len(outside)} measured points lie outside the plan" if outside else "no measured point lies outside a planned band"
    return drawn(figure, "clearances", f"Clearances: {stands}", " ".join(told), hovers)


def _one(build, axes, title, value, hovers, strays):
    unit = build.unit(value)
    plan = value.plan if value.plan is not None else (value.data if value.formula is not None or not value.elements else None)
    points = [(number, each) for number, each in enumerate(value.elements, 1) if each is not None]
    sentence = f"{title}:".capitalize()
    from ...quantity_display import in_unit

    def scaled(number):
        return in_unit(float(number), "length", unit)

    levels = []
    low, high = getattr(plan, "low", None), getattr(plan, "high", None)
    if low is not None and high is not None:
        hover(axes.axhspan(scaled(low), scaled(high), color=BAND, linewidth=0), f"planned {build.amount(low, value)} to {build.amount(high, value)}", hovers)
        levels += [scaled(low), scaled(high)]
        sentence += f" planned {build.amount(low, value)} to {build.amount(high, value)}"
    if plan is not None:
        axes.axhline(scaled(plan), color=SOFT, linestyle="--", linewidth=1)
        levels.append(scaled(plan))
        if low is None:
            sentence += f" {'planned' if value.formula is None else 'computed'} {build.amount(plan, value)}"
    numbers = [scaled(each.data) for _, each in points]
    levels += numbers
    outside = 0
    known = len(sentence)
    for (number, each), level in zip(points, numbers):
        out = low is not None and high is not None and not low - 1e-12 <= float(each.data) <= high + 1e-12
        outside += out
        strays.extend([title] * out)
        mark, = axes.plot([number], [level], "X" if out else "o", color=LIMIT if out else DEMAND, markersize=7 if out else 5)
        kind = value.along[0] if value.along else "value"
        hover(mark, f"{kind} {number}: {build.amount(each.data, value)}{', outside the plan' if out else ''}", hovers)
    if numbers:
        least, most = min(value.known, key=lambda each: each.data), max(value.known, key=lambda each: each.data)
        sentence += f"{';' if len(sentence) > known or known > len(title) + 1 else ''} {build.amount(least.data, value)} to {build.amount(most.data, value)} over {len(numbers)}"
        if low is not None:
            sentence += f", {outside or 'none'} outside"
        axes.set_xticks(range(1, value.count + 1, 1 if value.count <= 8 else 3))
        axes.set_xlabel(value.along[0] if value.along else "", fontsize=8)
    else:
        axes.set_xticks([])
    span = max(levels) - min(levels) or abs(max(levels)) * 0.2 or 1.0
    axes.set_ylim(min(levels) - 0.35 * span, max(levels) + 0.35 * span)
    axes.set_title(f"{title}, {unit}", fontsize=8.5)
    axes.tick_params(labelsize=7.5)
    return sentence + "."
