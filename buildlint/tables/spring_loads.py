"""What seat and open loads of valve springs are run with which lifters, and which uses count as racing.

Loads are at the valve and of the whole set. Several rules read these rows; a shop changes them rule by rule.
"""

from ..quantities import q

SPRING_CAUTION = "A valve spring under load can fly out: use a locked tool and eye protection, and follow its maker."

RACING = ("road_race", "oval_race", "drag_race")
LONG_RUNNING = ("road_race", "oval_race", "marine", "towing")  # full load for minutes or hours on end

# Lifters and use: least seat load. Common practice, no source; older inline engines are sold with 55 to 60 lbf,
# hence the row of the stock engine.
LEAST_SEAT_LOAD = {
    "stock": q("55 lbf"), "hydraulic_flat": q("85 lbf"), "solid_flat": q("100 lbf"), "hydraulic_roller": q("105 lbf"),
    "solid_roller": q("150 lbf"), "solid_roller_race": q("180 lbf"), "small_flat": q("55 lbf"),
    "mild_hydraulic_roller": q("80 lbf"),
}
SMALL_BORE = q("3.5 in")  # engines with small, light valves; common practice, no source


MILD_DURATION = q("212 deg")  # at 0.050 in: cams as engines are sold with them; common practice, no source


def seat_load_row(lifter_kind, duty, bore=None, duration=None):
    """The row of the tables of seat loads for a lifter and a use; a stock engine has its own whatever its lifters,
    flat lifters in an engine of small bores, racing apart, live on what stock engines have, and hydraulic rollers on
    lobes as short as those of stock engines on what those are sold with."""
    if duty == "stock":
        return "stock"
    if bore is not None and bore <= SMALL_BORE and lifter_kind in ("hydraulic_flat", "solid_flat") and duty not in RACING:
        return "small_flat"
    if lifter_kind == "solid_roller" and duty in RACING:
        return "solid_roller_race"
    if lifter_kind == "hydraulic_roller" and duty not in RACING and duration is not None and duration <= MILD_DURATION:
        return "mild_hydraulic_roller"
    return lifter_kind
