"""Bolted joints: the band in which the tension of each fastener falls, against its proof and what tries to lift the joint."""

from ...render.text import joined
from .drawing import DEMAND, GOOD, LIMIT, SOFT, Wanting, asked, board, drawn, hover, name_line, safe


def preload_bands(build):
    """For every joint: tension low, intended and high, the proof load, and for heads and mains the gas load on one fastener."""
    rows, needs = [], {}
    for joint in build.spec.joints:
        try:
            low, aim, high, proof = asked(build, ("preload_low", "preload", "preload_high", "proof_load"), joint)
        except Wanting as wanting:
            needs.update(dict.fromkeys(wanting.needs))
            continue
        rows.append((joint, low, aim, high, proof, _gas(build, joint)))
    if not rows:
        raise Wanting(needs or ("joints",))
    figure, axes = board(height=1.1 + 0.32 * len(rows))
    hovers, told = {}, []
    unit = build.unit(rows[0][4])
    for place, (joint, low, aim, high, proof, gas) in enumerate(rows):
        in_between, held = f"{build.amount(low.data, proof)} to {build.amount(high.data, proof)}", build.shown(proof)
        least, middle, most, limit = (build.number(value, unit) for value in (low, aim, high, proof))
        scale = 100 / limit
        bar = axes.barh(place, (most - least) * scale, 0.42, left=least * scale, color=DEMAND, alpha=0.35)[0]
        hover(bar, f"{safe(joint.name)}: {in_between}, proof {held}", hovers)
        axes.plot([middle * scale] * 2, [place - 0.28, place + 0.28], color=DEMAND, linewidth=2.5)
        sentence = f"{safe(joint.name).replace('_', ' ')}: {build.amount(aim.data, proof)} ({in_between}), proof {held}"
        if gas is not None:
            pull = gas / float(proof.data) * 100
            axes.plot([pull], [place], marker="<", color=LIMIT, markersize=7)
            sentence += f", gas pulls with {build.amount(gas, proof)}"
        told.append(sentence + ".")
    axes.axvline(100, color=LIMIT, linestyle="--")
    name_line(axes, (100, -0.75), "proof load", LIMIT, ha="center", dx=0)
    axes.set(yticks=range(len(rows)), yticklabels=[safe(row[0].name).replace("_", " ") for row in rows],
             xlabel="tension of one fastener, % of its proof load\nline: the aim; band: its scatter; arrow: the pull of the gas on one fastener",
             xlim=(0, None), ylim=(len(rows) - 0.4, -1.0))
    axes.grid(axis="y", visible=False)
    past = [safe(joint.name).replace("_", " ") for joint, _, _, high, proof, _ in rows if float(high.data) > float(proof.data)]
    slack = [safe(joint.name).replace("_", " ") for joint, low, _, _, _, gas in rows if gas is not None and float(low.data) < gas]
    title = "the scatter of tightening stays under proof"
    if past:
        title = f"the high end of the scatter reaches past proof in {joined(past)}"
    if slack:
        title += f"; gas can lift {joined(slack)}"
    return drawn(figure, "preload", f"Joints: {title}", " ".join(told), hovers)


def _gas(build, joint):
    """The pull of the gas on one fastener of a head or main joint, N; None for others or where it is not known."""
    name = joint.value("joint_name")
    if name is None or name.data not in ("head", "main"):
        return None
    load, around = ("head_lift_load", "fasteners_round_bore") if name.data == "head" else ("main_cap_load", "block_main_fasteners_per_cap")
    load, around = build.datum(load), build.datum(around)
    return float(load) / float(around) if load and around else None


def head_diagram(build):
    """The head joint's diagram: how tension and clamp share the gas load, with the scatter of tightening."""
    joint = next((each for each in build.spec.joints if each.name == "head"), None)
    if joint is None:
        raise Wanting(("joints.head",))
    aim, low, high, proof, bolt, clamped = asked(
        build, ("preload", "preload_low", "preload_high", "proof_load", "bolt_stiffness", "clamped_stiffness"), joint)
    pull = _gas(build, joint)
    if pull is None:
        raise Wanting(dict.fromkeys((*_lack(build, "head_lift_load"), *_lack(build, "fasteners_round_bore"))))
    force, length = build.unit(proof), build.usual_unit("length", 1e-4)
    from ...quantity_display import in_unit

    def forced(value):
        return in_unit(float(value), "force", force)

    stretch, squeeze = float(aim.data) / float(bolt.data), float(aim.data) / float(clamped.data)
    at, end = (in_unit(value, "length", length) for value in (stretch, stretch + squeeze))
    figure, axes = board(height=3.8)
    hovers = {}
    axes.axhspan(forced(low.data), forced(high.data), color=DEMAND, alpha=0.15, linewidth=0)
    hover(axes.plot([0, at], [0, forced(aim.data)], color=DEMAND)[0], f"fastener stretches {build.shown(bolt)}", hovers)
    hover(axes.plot([at, end], [forced(aim.data), 0], color=GOOD)[0], f"parts are squeezed {build.shown(clamped)}", hovers)
    share = float(bolt.data) / (float(bolt.data) + float(clamped.data))
    more = share * pull
    opened = in_unit(stretch + more / float(bolt.data), "length", length)
    axes.plot([at, opened], [forced(aim.data), forced(float(aim.data) + more)], color=DEMAND, linestyle=":")
    axes.plot([opened, opened], [forced(float(aim.data) + more - pull), forced(float(aim.data) + more)], color=LIMIT, linewidth=3)
    name_line(axes, (opened, forced(float(aim.data) + more - pull / 2)), f"gas {build.amount(pull, proof)}", LIMIT, va="center", dx=8)
    axes.axhline(forced(proof.data), color=LIMIT, linestyle="--")
    name_line(axes, (0, forced(proof.data)), f"proof {build.shown(proof)}", LIMIT)
    name_line(axes, (at / 2, forced(aim.data) / 2), "fastener", DEMAND, ha="right", dx=-6)
    name_line(axes, ((at + end) / 2, forced(aim.data) / 2), "clamped parts", GOOD, dx=8)
    name_line(axes, (0, forced(low.data)), f"scatter {build.shown(low)} to {build.shown(high)}", SOFT, dy=2)
    axes.set(xlabel=f"stretch of the fastener, then squeeze of the parts, {length}", ylabel=f"tension of one fastener, {force}", xlim=(0, None), ylim=(0, forced(proof.data) * 1.15))
    left = float(low.data) + more - pull
    return drawn(figure, "head-joint", "Head joint: at the low end of the scatter "
                 + (f"{build.amount(left, proof)} of clamp is left under the gas" if left > 0 else "the gas lifts the head"),
                 f"Tension {build.shown(aim)}, scatter {build.shown(low)} to {build.shown(high)}, proof {build.shown(proof)}. The gas pulls with "
                 f"{build.amount(pull, proof)} on each fastener at the highest mean pressure; {share * 100:.0f} % of it comes on top of the tension. "
                 f"At the low end of the scatter {build.amount(left, proof)} of clamp is left.", hovers)


def _lack(build, word):
    return build.missing(word) if build.value(word) is None else ()


def tightening_pattern(build):
    """The holes of the head where they stand, numbered in the order they are tightened."""
    joint = next((each for each in build.spec.joints if each.name == "head"), None)
    rows = None if joint is None else joint.value("positions")
    order = None if joint is None else joint.value("tightening_order")
    if rows is None or order is None:
        raise Wanting([key for key, there in (("joints.head.positions", rows), ("joints.head.tightening_order", order)) if there is None])
    placed = {str(row["name"]): row for row in rows.data if row.get("name") and row.get("x") is not None and row.get("y") is not None}
    names = [str(name) for name in order.data]
    known = [name for name in names if name in placed]
    if not known:
        raise Wanting(("joints.head.positions[].x", "joints.head.positions[].y"))
    from ...quantity_display import in_unit

    unit = build.usual_unit("length", 0.1)
    spots = [(in_unit(float(placed[name]["x"]), "length", unit), in_unit(float(placed[name]["y"]), "length", unit)) for name in known]
    wide, high = (max(spot[axis] for spot in spots) - min(spot[axis] for spot in spots) for axis in (0, 1))
    figure, axes = board(height=max(2.4, min(5.0, 9.0 * high / max(wide, 1e-9) + 1.0)))
    hovers = {}
    axes.plot(*zip(*spots), color=SOFT, linewidth=0.7, linestyle=":")
    for number, (name, spot) in enumerate(zip(known, spots), 1):
        mark, = axes.plot(*spot, "o", color="#ffffff", markeredgecolor=DEMAND, markersize=17, markeredgewidth=1.6)
        product = placed[name].get("thread_product")
        hover(mark, f"{number}: {safe(name)}" + (f", {safe(product).replace('_', ' ')}" if product else ""), hovers)
        axes.annotate(str(number), spot, ha="center", va="center", fontsize=9, fontweight="bold")
        name_line(axes, spot, safe(name), SOFT, dx=10, dy=7)
    axes.set(xlabel=f"along the head, {unit}", ylabel=f"across, {unit}", aspect="equal")
    axes.margins(0.08, 0.30)
    return drawn(figure, "pattern", "Head: tighten in this order on every pass",
                 f"{len(known)} fasteners in the order {', '.join(safe(name) for name in known)}.", hovers)
