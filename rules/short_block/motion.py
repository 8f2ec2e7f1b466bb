"""Rod to stroke, and how hard the pistons are pulled."""

from buildlint.rulebook import *
from buildlint.tables.piston_motion import ACCELERATION, SPEED_NOTE

RATIO = """
crank: {stroke: %s}
rods: {length: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The rod is {value} times the stroke.",
    fix="Nothing has to be done; the piston is short, so look at ring lands and pin.",
    source="geometry; bands common practice, no source",
    points_at=("rod_length", "crank_stroke"),
    conforming=(RATIO % ("3.750 in", "6.000 in", ""), RATIO % ("4.000 in", "6.000 in", "")),
    nonconforming=(RATIO % ("4.250 in", "6.000 in", "# <-"), RATIO % ("3.000 in", "6.125 in", "# <-"), RATIO % ("3.750 in", "3.800 in", "# <-")),
)
def rod_stroke_ratio_is_usual(
    rod_ratio: Ratio, rod_angle_largest: Angle, *, low: Ratio = q("1.5", "ratio"), high: Ratio = q("2.0", "ratio"),
    typed_low: Ratio = q("1.2", "ratio"), typed_high: Ratio = q("2.6", "ratio"),
):
    """The ratio is what packaging left of it, not an aim: short rods lean on the bore, long ones push the pin into the rings.

    Outside 1.2 to 2.6 one of the two is mistyped.
    """
    if not typed_low <= rod_ratio <= typed_high:
        return require(False).saying("The rod is {rod_ratio} times the stroke: one of the two is mistyped.",
                                     "Look at rod length and stroke again.")
    verdict = within(Ratio(rod_ratio), low, high)
    short = verdict.facts.get("side") == "below"
    if not short:
        return verdict
    return verdict.saying(
        "The rod is {value} times the stroke and leans up to {rod_angle_largest}.",
        "Nothing has to be done; look at skirts and thrust walls of engines that ran like this, and at the pin in the ring grooves.")


PULL = """
build: {rev_limit: %s}  %s
crank: {stroke: 2.500 in}
rods: {length: 4.000 in, class: forged_i_beam}
pistons: {class: %s}
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="At the limiter the pistons are pulled with {value}; {weakest} parts are run to {limit}.",
    fix="Lower the rev limit to {speed:down} or step up the {weakest} parts; whether the bolts hold it, the rule on the rod's joint says.",
    source="Den Hartog, Mechanical Vibrations (from memory); bands common practice, no source",
    points_at=("rev_limit",),
    conforming=PULL % ("8000 rpm", "", "forged_4032"),
    nonconforming=PULL % ("8800 rpm", "# <-", "hypereutectic"),
)
def piston_acceleration_suits_parts(
    piston_acceleration_top: Acceleration, piston_class: Choice, rev_limit: Rpm, rod_class: Choice = None,
    piston_speed_mean: Speed = None, *, rows=ACCELERATION,
):
    """Acceleration at top pulls pin bosses, rings and bolts; it grows with the square of the speed and with the stroke.

    It says nearly the same as piston speed, which is why it is only noted, only at the line where parts get old fast, and
    not where the speed is reported already.
    """
    classes = [name for name in (piston_class, rod_class) if name in rows]
    if not classes or piston_acceleration_top <= 0:
        return not_applicable("no row for these parts")
    if piston_speed_mean is not None and piston_speed_mean > min(SPEED_NOTE[name] for name in classes):
        return not_applicable("the mean piston speed is reported")
    weakest = min(classes, key=lambda name: rows[name])
    verdict = at_most(Acceleration(piston_acceleration_top, "g"), note=rows[weakest])
    return verdict.telling(weakest=weakest.replace("_", " "), speed=Rpm(rev_limit * (rows[weakest] / piston_acceleration_top) ** 0.5))
