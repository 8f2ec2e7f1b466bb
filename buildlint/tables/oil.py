"""The grades of engine oil and what a label promises, as data.

A written viscosity of the spec wins over the typical rows. How thick an oil is in between stands in the mechanics.
"""

from ..quantities import q

# hot grade: kinematic viscosity at 100 degC, least and the bound it stays below. SAE J300 (January 2015).
HOT_GRADES = {
    8: (q("4.0 mm^2/s"), q("6.1 mm^2/s")),
    12: (q("5.0 mm^2/s"), q("7.1 mm^2/s")),
    16: (q("6.1 mm^2/s"), q("8.2 mm^2/s")),
    20: (q("6.9 mm^2/s"), q("9.3 mm^2/s")),
    30: (q("9.3 mm^2/s"), q("12.5 mm^2/s")),
    40: (q("12.5 mm^2/s"), q("16.3 mm^2/s")),
    50: (q("16.3 mm^2/s"), q("21.9 mm^2/s")),
    60: (q("21.9 mm^2/s"), q("26.1 mm^2/s")),
}

# hot grade: least viscosity at 150 degC and high shear. SAE J300 (January 2015).
HIGH_SHEAR = {8: q("1.7 mPa*s"), 12: q("2.0 mPa*s"), 16: q("2.3 mPa*s"), 20: q("2.6 mPa*s"), 30: q("2.9 mPa*s"),
              40: q("3.7 mPa*s"), 50: q("3.7 mPa*s"), 60: q("3.7 mPa*s")}
# A 40 with one of these winter grades needs less. SAE J300.
HIGH_SHEAR_LIGHT_40 = q("3.5 mPa*s")
LIGHT_WINTER_GRADES = ("0W", "5W", "10W")

# winter grade: coldest temperature at which it must still pump (at most 60 000 mPa*s), and the least viscosity at
# 100 degC. SAE J300 (January 2015).
WINTER_GRADES = {
    "0W": (q("-40 degC"), q("3.8 mm^2/s")),
    "5W": (q("-35 degC"), q("3.8 mm^2/s")),
    "10W": (q("-30 degC"), q("4.1 mm^2/s")),
    "15W": (q("-25 degC"), q("5.6 mm^2/s")),
    "20W": (q("-20 degC"), q("5.6 mm^2/s")),
    "25W": (q("-15 degC"), q("9.3 mm^2/s")),
}

# label: usual viscosity at 40 and at 100 degC where the bottle's data are not written. Typical, from memory.
TYPICAL_VISCOSITY = {
    "0W-20": (q("44 mm^2/s"), q("8.4 mm^2/s")),
    "5W-20": (q("49 mm^2/s"), q("8.6 mm^2/s")),
    "5W-30": (q("62 mm^2/s"), q("10.6 mm^2/s")),
    "10W-30": (q("67 mm^2/s"), q("10.6 mm^2/s")),
    "10W-40": (q("97 mm^2/s"), q("14.4 mm^2/s")),
    "15W-40": (q("112 mm^2/s"), q("14.9 mm^2/s")),
    "15W-50": (q("128 mm^2/s"), q("18.2 mm^2/s")),
    "20W-50": (q("165 mm^2/s"), q("18.8 mm^2/s")),
    "SAE 30": (q("93 mm^2/s"), q("11.0 mm^2/s")),
    "SAE 40": (q("140 mm^2/s"), q("14.5 mm^2/s")),
    "SAE 50": (q("210 mm^2/s"), q("19.5 mm^2/s")),
}

# Part of the viscosity that is left between journal and shell, where the high-shear figure is not written: polymers of
# a multigrade give way. Common practice, no source.
SHEAR_LEFT = {"multigrade": 0.85, "straight": 1.0}


def read_label(label):
    """(winter grade or None, hot grade) of a label: ("10W", 40) of 10W-40, (None, 30) of SAE 30; None for another text."""
    winter, dash, hot = label.rpartition("-")
    if not dash:
        winter, hot = None, label.removeprefix("SAE").strip()
    if not hot.isdigit() or int(hot) not in HOT_GRADES or winter is not None and winter not in WINTER_GRADES:
        return None
    return winter, int(hot)
