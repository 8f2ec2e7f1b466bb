"""Power, speed and pressure against the class of block, caps, crank, rods and pistons: tables a shop will want to edit."""

from buildlint.rulebook import *
from buildlint.tables.power_classes import BLOCK, CAP, CRANK, PISTON, REFERENCE_DISPLACEMENT, ROD, SMALL_ENGINE

SOURCE = "common practice, no source; rows for 6 liters, power scaled by displacement; a shop sets its own"
SIZE = "block: {bore: 4.030 in%s}\ncrank: {stroke: 3.750 in%s}\nengine: {cylinders: 8}\n"

BLOCK_SPEC = SIZE % (", class: production_two_bolt", "") + "build: {peak_power: %s, peak_cylinder_pressure: %s}  %s\n"


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{value} is more than {name} blocks of this size are usually run to ({limit}).",
    fix="Take the next stronger block, caps and studs, or plan less {what}; the table is a shop's own to set.",
    source=SOURCE,
    points_at=("peak_power", "block_class"),
    conforming=BLOCK_SPEC % ("450 hp", "8.0 MPa", ""),
    nonconforming=(BLOCK_SPEC % ("700 hp", "8.0 MPa", "# <-"), BLOCK_SPEC % ("560 hp", "8.0 MPa", "# <-"),
                   BLOCK_SPEC % ("450 hp", "11.0 MPa", "# <-")),
)
def block_class_suits_power(
    block_class: Choice, peak_power: Power, displacement: Volume, peak_cylinder_pressure: Pressure = None,
    nitrous_power: Power = None, *, rows=BLOCK, warning_beyond: Fraction = q("0.15", "fraction"),
):
    """Webs crack, caps walk and bores split where the casting was never made for the load.

    The rows are what such blocks are known to live with, not what they break at; above them is a note, fifteen percent
    above a warning. A shot of nitrous counts where it is not part of the peak power already, so write the sum there.
    """
    if block_class not in rows:
        return not_applicable("no row for this block")
    power, pressure = rows[block_class]["power"], rows[block_class]["pressure"]
    name = block_class.replace("_", " ")
    verdict = _power(peak_power, power, displacement, warning_beyond).telling(name=name, what="power").at("peak_power")
    if peak_cylinder_pressure is None:
        return verdict
    other = at_most(Pressure(peak_cylinder_pressure), note=pressure, warning=Pressure(pressure * (1 + warning_beyond)))
    other.limit = pressure if other.kind == "fail" else other.limit
    other.telling(name=name, what="cylinder pressure").at("peak_cylinder_pressure")
    return max((verdict, other), key=_seriousness)


def _power(power, row, displacement, beyond):
    """A power against a row for six liters, scaled; below three liters no more than a note."""
    limit = row * displacement / REFERENCE_DISPLACEMENT
    verdict = at_most(Power(power), note=Power(limit), warning=Power(limit * (1 + beyond)))
    if verdict.kind == "fail":
        verdict.limit = Power(limit)
        if displacement < SMALL_ENGINE:
            verdict.within_level("note")
    return verdict


def _seriousness(verdict):
    return {None: 0, "note": 1, "warning": 2}[verdict.level]


CAP_SPEC = SIZE % (", main_caps: %s", "") + "build: {peak_power: %s}  %s\n"


@rule(
    scope="main_bearing",
    level="warning",
    due="ordering",
    says="{value} is more than {name} main caps are usually run to ({limit}) in an engine of this size.",
    fix="Fit {better} caps and have the line honed with them.",
    source=SOURCE,
    when={"block_main_caps": given},
    points_at=("block_main_caps",),
    conforming=("block: {bore: 4.030 in, main_caps: cast_iron}\ncrank: {stroke: 3.750 in}\nengine: {cylinders: 8}\nbuild: {peak_power: 450 hp}\n",
                "block: {bore: 4.030 in, main_caps: billet_steel}\ncrank: {stroke: 3.750 in}\nengine: {cylinders: 8}\nbuild: {peak_power: 1100 hp}\n"),
    nonconforming=("""
        block:
          bore: 4.030 in
          main_caps: cast_iron  # <-
        crank: {stroke: 3.750 in}
        engine: {cylinders: 8}
        build: {peak_power: 640 hp}
        """,),
)
def main_cap_material_suits_power(
    block_main_caps: Choice, peak_power: Power, displacement: Volume, *, rows=CAP, warning_beyond: Fraction = q("0.15", "fraction"),
):
    """Gray iron caps crack across the bolt holes; ductile and steel ones bend first.

    A note above the row and a warning fifteen percent above it. Billet caps have no row here.
    """
    if block_main_caps not in rows:
        return not_applicable("no row for these caps")
    verdict = _power(peak_power, rows[block_main_caps], displacement, warning_beyond)
    return verdict.telling(name=block_main_caps.replace("_", " "), better="ductile iron or steel" if block_main_caps == "cast_iron" else "steel")


CRANK_SPEC = SIZE % ("", ", material: %s") + "build: {peak_power: %s, rev_limit: %s}  %s\n"


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{value} is more than {name} cranks are usually run to ({limit}).",
    fix="Take the next stronger crank, or plan for {limit}.",
    source=SOURCE,
    points_at=("peak_power", "crank_material"),
    conforming=CRANK_SPEC % ("forged_4340", "700 hp", "7500 rpm", ""),
    nonconforming=(CRANK_SPEC % ("cast_iron", "700 hp", "5800 rpm", "# <-"), CRANK_SPEC % ("nodular_iron", "450 hp", "6800 rpm", "# <-")),
)
def crank_class_suits_power(
    crank_material: Choice, peak_power: Power, displacement: Volume, rev_limit: Rpm = None, *, rows=CRANK,
    warning_beyond: Fraction = q("0.15", "fraction"), speed_warning_beyond: Fraction = q("0.10", "fraction"),
):
    """A cast crank does not bend before it breaks; what it is run to is a matter of how often one has been seen to break.

    Above the row is a note, fifteen percent in power or ten in speed above it a warning.
    """
    return _both(crank_material, peak_power, displacement, rev_limit, rows, warning_beyond, speed_warning_beyond)


PLAIN = SIZE % ("", "")
ROD_SPEC = PLAIN + "rods: {class: %s}\nbuild: {peak_power: %s, rev_limit: %s}  %s\n"


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{value} is more than {name} rods are usually run to ({limit}).",
    fix="Take the next stronger rod and bolt, or plan for {limit}.",
    source=SOURCE,
    points_at=("peak_power", "rod_class"),
    conforming=ROD_SPEC % ("forged_i_beam", "450 hp", "6500 rpm", ""),
    nonconforming=(ROD_SPEC % ("production_powder", "650 hp", "6000 rpm", "# <-"),
                   ROD_SPEC % ("production_forged", "430 hp", "6600 rpm", "# <-")),
)
def rod_class_suits_power(
    rod_class: Choice, peak_power: Power, displacement: Volume, rev_limit: Rpm = None, *, rows=ROD,
    warning_beyond: Fraction = q("0.15", "fraction"), speed_warning_beyond: Fraction = q("0.10", "fraction"),
):
    """Power pushes on a rod, speed pulls on it; most that break were pulled apart by a missed shift.

    What the pull really is and whether the bolts hold it, the rule on the rod's joint works out; this one only compares
    classes.
    """
    return _both(rod_class, peak_power, displacement, rev_limit, rows, warning_beyond, speed_warning_beyond)


def _both(name, power, displacement, speed, rows, power_beyond, speed_beyond):
    if name not in rows:
        return not_applicable("no row for this class")
    power_row, speed_row = rows[name]["power"], rows[name]["speed"]
    verdict = _power(power, power_row, displacement, power_beyond).at("peak_power")
    if speed is not None:
        other = at_most(Rpm(speed), note=speed_row, warning=Rpm(speed_row * (1 + speed_beyond))).at("rev_limit")
        other.limit = speed_row if other.kind == "fail" else other.limit
        verdict = max((verdict, other), key=_seriousness)
    return verdict.telling(name=name.replace("_", " "))


PISTON_SPEC = PLAIN + "pistons: {class: %s}\nbuild: {peak_power: %s}  %s\n"


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{value} is more than {name} pistons are usually run to ({limit}) in an engine of this size.",
    fix="Take the next stronger piston, or plan for {limit}.",
    source=SOURCE,
    points_at=("peak_power", "piston_class"),
    conforming=PISTON_SPEC % ("forged_4032", "550 hp", ""),
    nonconforming=(PISTON_SPEC % ("hypereutectic", "600 hp", "# <-"), PISTON_SPEC % ("cast", "450 hp", "# <-")),
)
def piston_class_suits_power(
    piston_class: Choice, peak_power: Power, displacement: Volume, *, rows=PISTON, warning_beyond: Fraction = q("0.15", "fraction"),
):
    """Cast pistons crack and lose their lands where forged ones only get hot and soft.

    Boost and nitrous have a rule of their own; this one compares power alone.
    """
    if piston_class not in rows:
        return not_applicable("no row for this class")
    verdict = _power(peak_power, rows[piston_class], displacement, warning_beyond)
    return verdict.telling(name=piston_class.replace("_", " "))
