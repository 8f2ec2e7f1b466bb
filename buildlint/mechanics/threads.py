"""Screw threads: reading a designation and writing one, the areas that follow from diameter and pitch, and how two
threads go together. What a thread may bear stands in the formulas.
"""

import re
from typing import NamedTuple

from ..numeric import PI, where
from ..quantities import q

INCH = 0.0254

# Number sizes of the unified series, major diameter in inches: 0.060 + 0.013 n (ASME B1.1).
_NUMBER_SIZE = re.compile(r"#?([0-9]{1,2})-([0-9]{1,3})(?:\s+[A-Z]{2,4}(?:-[0-9][AB])?)?")
_INCH = re.compile(r"([0-9]{1,2})(?:-([0-9]{1,2}))?(?:/([0-9]{1,2}))?-([0-9]{1,3})(?:\s+([A-Z]{2,4})(?:-[0-9][AB])?)?")
_METRIC = re.compile(r"M([0-9]{1,3}(?:\.[0-9]{1,3})?)(?:\s?[xX\u00d7]\s?([0-9](?:\.[0-9]{1,3})?))?")

# Coarse pitch of each metric size in mm (ISO 261, first and second choice).
COARSE_PITCH = {3: 0.5, 4: 0.7, 5: 0.8, 6: 1.0, 7: 1.0, 8: 1.25, 10: 1.5, 12: 1.75, 14: 2.0, 16: 2.0, 18: 2.5,
                20: 2.5, 22: 2.5, 24: 3.0}

# Taper pipe threads: outside diameter of the pipe in inches by nominal size (ASME B1.20.1); the flank of the
# 55 degree series is ISO 7-1.
PIPE_DIAMETER = {"1/16": 0.3125, "1/8": 0.405, "1/4": 0.540, "3/8": 0.675, "1/2": 0.840, "3/4": 1.050, "1": 1.315}


class ScrewThread(NamedTuple):
    """Diameter and pitch in m, whether it is of the unified (inch) series, flank angle in degrees, whether it
    tapers, whether the pitch was assumed."""

    diameter: float
    pitch: float
    unified: bool = False
    flank: float = 60.0
    taper: bool = False
    pitch_assumed: bool = False


def read_thread(text):
    """Read 7/16-20, 1/2-13 UNC, 10-32, M8x1.25, M8 or 1/8-27 NPT. Returns a ScrewThread; None if unreadable.

    An M size without a pitch is taken as coarse (ISO 261) and says so in ``pitch_assumed``.
    """
    text = str(text).strip()
    metric = _METRIC.fullmatch(text)
    if metric:
        size = float(metric[1])
        pitch = float(metric[2]) if metric[2] else COARSE_PITCH.get(size)
        return ScrewThread(size / 1000, pitch / 1000, pitch_assumed=not metric[2]) if pitch and size else None
    inch = _INCH.fullmatch(text)
    if inch and (inch[3] or int(inch[1]) <= 4):
        series = inch[5] or ""
        if series in ("NPT", "NPTF", "BSPT", "R", "G", "BSPP"):
            size = f"{inch[1]}/{inch[3]}" if inch[3] else inch[1]
            outside = PIPE_DIAMETER.get(size)
            if outside is None:
                return None
            return ScrewThread(outside * INCH, INCH / int(inch[4]), True, 55.0 if series in ("BSPT", "BSPP", "R", "G") else 60.0,
                               series in ("NPT", "NPTF", "BSPT", "R"))
        if inch[3]:
            whole, over = (int(inch[1]), int(inch[2])) if inch[2] else (0, int(inch[1]))
            if not int(inch[3]):
                return None
            diameter = whole + over / int(inch[3])
        else:
            diameter = int(inch[1])
        threads = int(inch[4])
        return ScrewThread(diameter * INCH, INCH / threads, True) if diameter and threads else None
    number = _NUMBER_SIZE.fullmatch(text)
    if number and int(number[1]) <= 12 and int(number[2]):
        return ScrewThread((0.060 + 0.013 * int(number[1])) * INCH, INCH / int(number[2]), True)
    return None


def pitch_diameter(diameter, pitch):
    """Basic pitch diameter of a 60 degree thread: d - 0.649519 P (ISO 724, ASME B1.1). m."""
    return diameter - 0.649519 * pitch


def minor_diameter(diameter, pitch):
    """Minor diameter of the external thread's root for stress: d - 1.226869 P (ISO 898-1). m."""
    return diameter - 1.226869 * pitch


def stress_area(thread):
    """Tensile stress area of a ScrewThread: pi/4 (d - 0.938194 P)^2 metric, pi/4 (d - 0.9743 P)^2 unified. m2.

    Source: ISO 898-1 (metric), ASME B1.1 (unified).
    """
    return PI / 4 * (thread.diameter - (0.9743 if thread.unified else 0.938194) * thread.pitch) ** 2


class ThreadLimits(NamedTuple):
    """The sizes at which a pair of threads holds least, in m: smallest bolt in the largest hole."""

    external_major_least: float
    internal_pitch_most: float
    internal_minor_most: float
    external_pitch_least: float


ONE_MILLIMETER = q("1 mm")
ONE_MICROMETER = q("1 um")
ONE_INCH = q("1 in")


def limits(thread):
    """Tolerance limits of a ScrewThread in the usual classes: 6g bolt in 6H hole, 2A bolt in 2B hole.

    The tolerances follow from diameter and pitch by the standards' own formulas; the metric one is taken at the
    diameter itself, not at the middle of the standard's range of diameters, which moves it by 2 percent at most.
    Source: ISO 965-1 (metric); ASME B1.1 (unified, engagement of one diameter).
    """
    diameter, pitch = thread.diameter, thread.pitch
    if thread.unified:
        d, p = diameter / ONE_INCH, pitch / ONE_INCH
        pitch_tolerance = (0.0015 * d ** (1 / 3) + 0.0015 * d**0.5 + 0.015 * p ** (2 / 3)) * ONE_INCH
        allowance = 0.3 * pitch_tolerance
        major_tolerance = 0.06 * p ** (2 / 3) * ONE_INCH
        hole_tolerance = 1.3 * pitch_tolerance
        minor_tolerance = 0.25 * pitch - 0.40 * p * pitch
    else:
        d, p = diameter / ONE_MILLIMETER, pitch / ONE_MILLIMETER
        pitch_tolerance = 90 * p**0.4 * d**0.1 * ONE_MICROMETER
        allowance = (15 + 11 * p) * ONE_MICROMETER
        major_tolerance = (180 * p ** (2 / 3) - 3.15 * p**-0.5) * ONE_MICROMETER
        hole_tolerance = 1.32 * pitch_tolerance
        minor_tolerance = where(p >= 1, 230 * p**0.7, 433 * p - 190 * p**1.22) * ONE_MICROMETER
    middle = pitch_diameter(diameter, pitch)
    return ThreadLimits(diameter - allowance - major_tolerance, middle + hole_tolerance,
                        diameter - 1.082532 * pitch + minor_tolerance, middle - allowance - pitch_tolerance)


def internal_shear_area(length, pitch, external_major_least, internal_pitch_most):
    """Area that shears when the hole's thread strips: pi (Le/P) d (P/2 + 0.57735 (d - D2)). m2.

    Source: FED-STD-H28/2B; Machinery's Handbook, working strength of threads.
    """
    return PI * length / pitch * external_major_least * (pitch / 2 + 0.57735 * (external_major_least - internal_pitch_most))


def external_shear_area(length, pitch, internal_minor_most, external_pitch_least):
    """Area that shears when the bolt's thread strips: pi (Le/P) D1 (P/2 + 0.57735 (d2 - D1)). m2.

    Source: FED-STD-H28/2B; Machinery's Handbook, working strength of threads.
    """
    return PI * length / pitch * internal_minor_most * (pitch / 2 + 0.57735 * (external_pitch_least - internal_minor_most))


USUAL_PLAY = q("0.08 mm")  # axial play of a 2A/2B or 6g/6H pair; common practice, no source


def turns_to_bind(male, female):
    """Turns that a thread of another pitch runs in before its flanks jam: play / difference of pitch.

    The play is what the smaller diameter leaves on 60 degree flanks, (D - d) tan 30, and the usual play. Endless for
    equal pitches. Source: geometry of the flanks.
    """
    difference = abs(male.pitch - female.pitch)
    play = (female.diameter - male.diameter) * 0.57735 + USUAL_PLAY
    return play / difference if difference > 1e-9 * male.pitch else float("inf")


def flank_overlap(male, female):
    """Share of the hole's thread height that a thinner male thread still covers.

    Source: geometry; basic height of the internal thread 0.5413 P (ISO 68-1).
    """
    minor = female.diameter - 1.082532 * female.pitch
    return (male.diameter - minor) / 2 / (0.541266 * female.pitch)


def same_thread(one, other, diameter_within=q("0.05 mm"), pitch_within=q("0.005 mm")):
    """Whether two ScrewThreads go together: diameter, pitch, flank and taper.

    Source: geometry of ISO 68-1, ISO 7-1, ASME B1.1 and B1.20.1.
    """
    return (abs(one.diameter - other.diameter) <= diameter_within and abs(one.pitch - other.pitch) <= pitch_within
            and one.flank == other.flank and one.taper == other.taper)


def thread_name(thread):
    """A ScrewThread as the trade writes it: 7/16-20, 10-32 or M8x1.25."""
    if not thread.unified:
        return f"M{thread.diameter * 1000:.4g}x{thread.pitch * 1000:.4g}"
    per_inch = f"{INCH / thread.pitch:.3g}"
    if thread.taper or thread.flank != 60.0:
        size = next((name for name, outside in PIPE_DIAMETER.items() if abs(outside * INCH - thread.diameter) < 1e-6), "pipe")
        return f"{size}-{per_inch} {'NPT' if thread.flank == 60.0 else 'BSPT' if thread.taper else 'BSPP'}"
    inches = thread.diameter / INCH
    number = (inches - 0.060) / 0.013
    if inches < 0.22 and abs(number - round(number)) < 1e-6:
        return f"{round(number)}-{per_inch}"
    from fractions import Fraction

    whole, part = divmod(Fraction(inches).limit_denominator(64), 1)
    size = f"{whole}-{part}" if whole and part else f"{whole or part}"
    return f"{size}-{per_inch}"
