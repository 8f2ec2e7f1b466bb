"""Trapped compression that a fuel bears, by octane and chamber metal, and how octane scales hang together.

The rows are practice drawn into one line and sure within 0.3 of a ratio: published windows for pump gasoline run
from 7.5 to 8.5, and everybody's closing lift differs. Common practice, no source.
"""

from ..quantities import q
from .fuels import FAMILY

USUAL_SENSITIVITY = {"gasoline": 9.0, "e85": 15.0, "ethanol": 16.0, "methanol": 15.0, "lpg": 15.0}

# Anti-knock index where none is written. Alcohols and propane: mean of RON and MON in the property table of the
# Alternative Fuels Data Center (U.S. Department of Energy).
USUAL_ANTIKNOCK = {"e85": 97.0, "ethanol": 100.0, "methanol": 99.5, "lpg": 104.5}

IRON_ROWS = {
    "aki_87": q("7.6:1", "ratio"), "aki_89": q("7.7:1", "ratio"), "aki_91": q("7.8:1", "ratio"), "aki_93": q("8.0:1", "ratio"),
    "aki_99": q("8.7:1", "ratio"), "aki_110": q("9.8:1", "ratio"), "aki_116": q("10.5:1", "ratio"),
    "e85": q("9.7:1", "ratio"), "ethanol": q("9.9:1", "ratio"), "methanol": q("10.5:1", "ratio"), "lpg": q("9.2:1", "ratio"),
}
ALUMINUM_ROWS = {
    "aki_87": q("7.9:1", "ratio"), "aki_89": q("8.05:1", "ratio"), "aki_91": q("8.2:1", "ratio"), "aki_93": q("8.5:1", "ratio"),
    "aki_99": q("9.2:1", "ratio"), "aki_110": q("10.3:1", "ratio"), "aki_116": q("11.0:1", "ratio"),
    "e85": q("10.2:1", "ratio"), "ethanol": q("10.5:1", "ratio"), "methanol": q("11.2:1", "ratio"), "lpg": q("9.7:1", "ratio"),
}

E85_FULL_FROM = 0.70  # ethanol by volume from which the E85 row holds in full
E10_SHARE = 0.10


def is_aluminum(material):
    """Whether a head of this casting material takes the aluminum rows."""
    return material.startswith("aluminum") or material == "magnesium"


def row_for(rows, fuel, antiknock=None, ethanol_lowest=None):
    """Trapped ratio a fuel bears by one table of rows, or None where the octane of a gasoline is not known.

    Between the octane rows lines are drawn; below the lowest the first two are drawn on, above the highest the last
    row stays. E85 that may be thin on ethanol is taken between 91 on gasoline and its own row.
    """
    family = FAMILY.get(fuel)
    if family == "e85" and ethanol_lowest is not None and ethanol_lowest < E85_FULL_FROM:
        share = max(ethanol_lowest - E10_SHARE, 0.0) / (E85_FULL_FROM - E10_SHARE)
        return rows["aki_91"] + share * (rows["e85"] - rows["aki_91"])
    if family != "gasoline":
        return rows.get(family)
    if antiknock is None:
        return None
    points = sorted((float(name[4:]), float(ratio)) for name, ratio in rows.items() if name.startswith("aki_"))
    for (low, at_low), (high, at_high) in zip(points, points[1:]):
        if antiknock <= high:
            return at_low + (at_high - at_low) * (antiknock - low) / (high - low)
    return points[-1][1]
