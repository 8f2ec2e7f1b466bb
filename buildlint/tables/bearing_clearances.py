"""Usual oil clearances by duty, as data. A shop sets its own rows."""

from .oil import read_label

# duty: clearance for each unit of journal diameter. The thin row is for 20 and lighter grades in
# engines whose housings and journals have been measured round and straight. Common practice, no source; the rule of
# thumb 0.001 in for each inch of journal, 0.0005 in more for racing, is repeated everywhere.
ROWS = {
    "stock": {"least": 0.0006, "aim": 0.0009, "most": 0.0012},
    "street": {"least": 0.00075, "aim": 0.0010, "most": 0.0012},
    "street_strip": {"least": 0.00085, "aim": 0.0010, "most": 0.00125},
    "race": {"least": 0.00090, "aim": 0.0011, "most": 0.0014},
    "race_thin_oil": {"least": 0.00065, "aim": 0.00080, "most": 0.0010},
    "marine_or_towing": {"least": 0.00085, "aim": 0.0011, "most": 0.0013},
}
RACING = ("road_race", "oval_race", "drag_race")


def row_of(duty, oil_grade, induction=None):
    """The name of the row for a duty and the label of the oil (None where it is not known); boost loads a street engine
    like one for the strip."""
    if duty in RACING:
        label = read_label(oil_grade) if oil_grade is not None else None
        return "race_thin_oil" if label is not None and label[1] <= 20 else "race"
    if duty == "street" and induction not in (None, "natural"):
        return "street_strip"
    return "marine_or_towing" if duty in ("marine", "towing") else duty
