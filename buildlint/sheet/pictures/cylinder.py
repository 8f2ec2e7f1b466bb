"""Compression and the pressure in the cylinder through the closed part of the cycle."""

import math

from ...mechanics import combustion
from ...quantity_display import in_unit
from .drawing import DEMAND, LIMIT, SOFT, asked, board, drawn, hover, name_line

SHUT = 142  # degrees of crank before and after top that the picture shows


def pressure(build):
    """Pressure over the crank angle: compressed without spark, and with the burn that gives the judged peak."""
    ratio, peak, center = asked(build, ("compression_ratio", "peak_cylinder_pressure", "combustion_center"))
    rod = build.datum("rod_ratio") or combustion.USUAL_ROD_RATIO
    unit = build.unit(peak)
    angles = list(range(-SHUT, SHUT + 1, 2))
    compressed, burning = _cycle(float(ratio.data), float(center.data), float(rod), angles)
    scale = in_unit(float(peak.data), "pressure", unit) / max(burning)  # the judged peak sets the pressure at bottom
    motored, fired = [scale * each for each in compressed], [scale * each for each in burning]
    figure, axes = board(height=3.4)
    hovers = {}
    top = max(range(len(angles)), key=lambda place: fired[place])
    hover(axes.plot(angles, fired, color=DEMAND)[0], f"fired, highest {build.shown(peak)}", hovers)
    hover(axes.plot(angles, motored, color=SOFT, linestyle="--")[0], f"without spark, highest {max(motored):.0f} {unit}", hovers)
    axes.plot([angles[top]], [fired[top]], "o", color=DEMAND)
    name_line(axes, (angles[top], fired[top]), f"mean cycle {build.shown(peak)} at {angles[top]} deg", DEMAND)
    name_line(axes, (-12, max(motored)), f"without spark {max(motored):.0f} {unit}", SOFT, ha="right")
    design = build.value("design_cylinder_pressure")
    if design is not None:
        axes.axhline(build.number(design, unit), color=LIMIT, linestyle=":")
        name_line(axes, (-SHUT, build.number(design, unit)), f"parts are held against {build.shown(design)}", LIMIT)
    axes.set(xlabel="crank angle after firing top, deg", ylabel=f"pressure, {unit}", xticks=range(-120, 121, 60), ylim=(0, None))
    axes.set_ylim(0, axes.get_ylim()[1] * 1.08)
    trapped = build.value("trapped_compression_ratio")
    text = (f"Compression ratio {build.shown(ratio)}{'' if trapped is None else ', trapped ' + build.shown(trapped)}. The mean cycle at peak torque "
            f"reaches {build.shown(peak)} {angles[top]} degrees after top, {max(motored):.0f} {unit} without spark"
            f"{'' if design is None else '; parts are held against ' + build.shown(design)}. An estimate from one zone with a burn of 60 degrees.")
    return drawn(figure, "pressure", "Cylinder pressure: the peak comes soon after top, and sets the load on everything", text, hovers)


def _cycle(ratio, center, rod, angles):
    """(compressed, burning) pressures over those at bottom, by the sums of mechanics.combustion."""
    heats = combustion.SPECIFIC_HEATS
    full = combustion.volume(math.pi, ratio, rod)
    start = center - combustion.HALF_BURNED * combustion.BURN_LENGTH
    compressed, burning, held, burned = [], [], full**heats, 0.0
    before = None
    for angle in angles:
        turned = math.radians(angle)
        here = combustion.volume(turned, ratio, rod)
        share = float(combustion.burned_share((turned - start) / combustion.BURN_LENGTH))
        middle = here if before is None else (here + before) / 2
        held += (heats - 1) * combustion.HEAT * (share - burned) * middle ** (heats - 1)
        burned, before = share, here
        compressed.append((full / here) ** heats)
        burning.append(held / here**heats)
    return compressed, burning
