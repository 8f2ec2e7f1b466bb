"""Screw threads: reading a designation, and the areas that follow from diameter and pitch."""

import re
from typing import NamedTuple

from ..numeric import PI

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
