"""How much air a claim of power may ask for before it is doubted, by four measures and by how hard the engine is used.

All four guess at one thing, so one alone is no more than a note; three that agree are a warning. Race rows are wide:
tuned runners and late valves push every one of these knees up. Common practice, no source.
"""

from ..quantities import q
from .duties import BREATHING

VOLUMETRIC_EFFICIENCY = {"street": q("0.97", "fraction"), "strip": q("1.05", "fraction"), "race": q("1.23", "fraction")}
MACH_INDEX = {"street": q("0.60", "ratio"), "strip": q("0.65", "ratio"), "race": q("0.72", "ratio")}
# A choked valve contradicts the claim only where the cylinders are said to fill at least so well.
FILLING_FROM = {"street": q("0.80", "fraction"), "strip": q("0.85", "fraction"), "race": q("1.00", "fraction")}
HEAD_FLOW_SHARE = {"street": q("0.90", "fraction"), "strip": q("1.00", "fraction"), "race": q("1.10", "fraction")}
PORT_SPEED = {"street": q("183 m/s"), "strip": q("190 m/s"), "race": q("205 m/s")}

AGREEING = 3  # measures that make a warning together


def row_of(duty, induction=None):
    """The row of an engine: by its duty; a compressor fills a street engine like one for the strip."""
    row = BREATHING[duty]
    return "strip" if row == "street" and induction not in (None, "natural") else row
