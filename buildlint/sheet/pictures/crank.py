"""The piston through one turn of the crank, and the film of its bearings over the speed."""

import math

from ...mechanics import journal_bearing, slider_crank
from ...quantity_display import in_unit, show
from .drawing import DEMAND, LIMIT, SECOND, SOFT, Wanting, asked, board, drawn, hover, name_line


def piston_motion(build):
    """How far below top the piston stands and how fast it goes, at the rev limit."""
    throw, rod, speed = asked(build, ("crank_throw", "rod_length", "rev_limit"))
    radius, length, turning = float(throw.data), float(rod.data), float(speed.data)
    if not 0 < radius < length:
        raise Wanting(why="the rod is shorter than the crank's throw")
    unit = build.unit(throw)
    pace = build.unit(build.value("piston_speed_mean")) if build.value("piston_speed_mean") is not None else build.usual_unit("speed")
    angles = list(range(0, 361, 3))
    drops = [in_unit(slider_crank.piston_drop(math.radians(angle), radius, length), "length", unit) for angle in angles]
    speeds = [in_unit(slider_crank.piston_velocity(math.radians(angle), radius, length, turning), "speed", pace) for angle in angles]
    figure, (left, right) = board(2, height=3.1)
    hovers = {}
    fastest = max(range(len(angles)), key=lambda place: speeds[place])
    hover(left.plot(angles, drops, color=DEMAND)[0], f"stroke {max(drops):.3f} {unit}", hovers)
    left.invert_yaxis()
    left.set(title="position", xlabel="crank angle after top, deg", ylabel=f"below top, {unit}", xticks=range(0, 361, 90))
    hover(right.plot(angles, speeds, color=SECOND)[0], f"fastest {speeds[fastest]:.0f} {pace} at {angles[fastest]} degrees", hovers)
    right.plot([angles[fastest]], [speeds[fastest]], "o", color=SECOND)
    name_line(right, (angles[fastest], speeds[fastest]), f"{speeds[fastest]:.0f} {pace} at {angles[fastest]} deg", SECOND, dx=8, dy=-6, va="top")
    mean = build.value("piston_speed_mean")
    if mean is not None:
        right.axhline(build.number(mean, pace), color=SOFT, linestyle="--", linewidth=1)
        name_line(right, (360, build.number(mean, pace)), f"mean {build.shown(mean)}", SOFT, ha="right", dx=0)
    right.set(title=f"speed at {build.shown(speed)}", xlabel="crank angle after top, deg", ylabel=f"speed down, {pace}", xticks=range(0, 361, 90))
    text = (f"Stroke {max(drops):.3f} {unit}. At {build.shown(speed)} the piston is fastest {angles[fastest]} degrees after top with "
            f"{speeds[fastest]:.0f} {pace}{'' if mean is None else ', the mean is ' + build.shown(mean)}.")
    return drawn(figure, "piston", f"Piston: it is fastest {angles[fastest]} degrees after top, before the throw stands square", text, hovers)


def bearing_film(build):
    """The least oil film of main and rod bearings over the speed, under the load of inertia, against the roughness of both faces."""
    rows, needs = [], {}
    for bearing in build.spec.bearings:
        if bearing.name not in ("main", "rod"):
            continue
        try:
            rows.append((bearing, *asked(build, ("big_end_inertia_load", "width", "journal_diameter", "clearance", "oil_viscosity_bearing",
                                                 "rev_limit", "film_thickness"), bearing)))
        except Wanting as wanting:
            needs.update(dict.fromkeys(wanting.needs))
    if not rows:
        raise Wanting(needs)
    figure, axes = board(height=3.2)
    hovers, told = {}, []
    unit = build.usual_unit("length", 1e-5)
    fine = "um" if unit == "mm" else unit
    for (bearing, load, width, diameter, clearance, viscosity, limit, film), (color, dashes) in zip(rows, ((DEMAND, "-"), (SECOND, (0, (6, 2))))):
        from ...formulas import bearings as formulas

        share = formulas.LOAD_SHARE[bearing.name]
        top = float(limit.data)
        carrying = formulas._carrying(float(width.data), build.datum("oil_groove", bearing))
        speeds, films = [], []
        for step in range(3, 23):
            turning = top * step / 20
            force = share * float(load.data) * (turning / top) ** 2  # inertia goes with the square of the speed
            thick = journal_bearing.least_film(force, float(viscosity.data), turning, float(diameter.data), carrying, float(clearance.data))
            speeds.append(in_unit(turning, "rpm", "rpm"))
            films.append(in_unit(float(thick), "length", fine))
        line, = axes.plot(speeds, films, color=color, linestyle=dashes)
        held = show(float(film.data), "length", fine)
        hover(line, f"{bearing.name} bearing: {held} is judged", hovers)
        name_line(axes, (speeds[8], films[8]), bearing.name, color)
        judged = in_unit(float(film.data), "length", fine)
        axes.plot([in_unit(top, "rpm", "rpm")], [judged], "s", color=color)
        name_line(axes, (in_unit(top, "rpm", "rpm"), judged), f"{bearing.name} judged {held}", color, ha="right", dx=-6, dy=2)
        told.append(f"{bearing.name.capitalize()}: judged {held}, the thinner of inertia at the limiter and gas at peak torque.")
        journal, shell = build.datum("journal_finish", bearing), build.datum("shell_finish", bearing)
        if journal is not None and shell is not None:
            rough = in_unit(1.25 * math.hypot(float(journal), float(shell)), "length", fine)
            axes.axhline(rough, color=LIMIT, linestyle=":" if bearing.name == "main" else "--", linewidth=1)
            name_line(axes, (speeds[0], rough), f"roughness of the {bearing.name}'s faces", LIMIT, dx=2 if bearing.name == "main" else 170)
    axes.set(xlabel="crank speed, rpm", ylabel=f"least film, {fine}", ylim=(0, None))
    return drawn(figure, "film", "Bearing film: it gets thinner with speed, and should stay above the roughness", " ".join(told) +
                 " For comparing builds: a load that turns leaves another film.", hovers)
