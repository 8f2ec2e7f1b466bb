"""What the metals of a joint bear: thread strength of castings, pressure under a head, and who eats whom when wet.

Growth and stiffness of metals stand in materials.py. A written value of the spec wins over these rows.
"""

from ..quantities import q

# tapped metal: tensile strength, shear over tensile strength, and whether the name fixes the alloy. Irons: EN 1561,
# EN 1563 and EN 16079 grades usual for blocks and heads (250, 500, 400 MPa), from memory; their threads shear at 0.9 to
# 1.1 of tensile strength (VDI 2230, from memory), the low end is used. 356-T6: 230 MPa (ASM Handbook vol. 2, permanent
# mold); wrought 6082-T6 and 7075-T6, die-cast and 319: ASM Handbook vol. 2, from memory. Shear ratio 0.6 for aluminum and
# steel (Machinery's Handbook; VDI 2230 allows 0.7 for aluminum).
TAPPED_METALS = {
    "cast_iron": (q("250 MPa"), 0.9, True),
    "ductile_iron": (q("500 MPa"), 0.9, True),
    "compacted_iron": (q("400 MPa"), 0.9, True),
    "aluminum_cast": (q("200 MPa"), 0.6, False),
    "aluminum_356_t6": (q("230 MPa"), 0.6, True),
    "aluminum_319": (q("200 MPa"), 0.6, False),
    "aluminum_die_cast": (q("240 MPa"), 0.6, False),
    "aluminum_6082": (q("310 MPa"), 0.6, True),
    "aluminum_7075": (q("530 MPa"), 0.6, True),
    "steel": (q("600 MPa"), 0.6, False),
    "steel_sheet": (q("370 MPa"), 0.6, False),
    "magnesium": (q("230 MPa"), 0.6, False),
}

# A thread insert holds in a larger thread: major diameter of its tapped hole over the fastener's, in pitches
# (ASME B18.29.1, from memory: two thread heights of 0.6495 P). Solid inserts are larger still and are counted alike.
INSERT_GROWTH_IN_PITCHES = 1.299

# Pressure a clamped metal bears under a head, nut or washer: VDI 2230:2003 guide values, cold, wide part, hole without
# chamfer; the row of unnamed cast aluminum is that of heat-treated castings, since an ordinary stud would break any
# lower one on every head: common practice, no source. Magnesium has no row.
BEARING_PRESSURE = {
    "cast_iron": q("900 MPa"),
    "ductile_iron": q("700 MPa"),
    "compacted_iron": q("700 MPa"),
    "aluminum_cast": q("380 MPa"),
    "aluminum_356_t6": q("380 MPa"),
    "aluminum_319": q("380 MPa"),
    "aluminum_die_cast": q("290 MPa"),
    "aluminum_6082": q("230 MPa"),
    "aluminum_7075": q("410 MPa"),
    "steel": q("630 MPa"),
    "steel_sheet": q("490 MPa"),
}
# What heat takes off that pressure in aluminum: common practice, no source.
HOT_ALUMINUM = 0.85

# Anodic index in volts: what two metals that are wet together differ by (MIL-STD-889 style tables, several agree). Stainless
# is the row of steels with 18 percent chromium; castings with silicon stand with wrought aluminum.
ANODIC_INDEX = {
    "stainless": 0.50, "brass": 0.40, "bronze": 0.40, "copper": 0.35, "cadmium_plated": 0.95, "steel": 0.85, "cast_iron": 0.85,
    "ductile_iron": 0.85, "compacted_iron": 0.85, "steel_sheet": 0.85, "aluminum": 0.90, "aluminum_cast": 0.90, "aluminum_356_t6": 0.90,
    "aluminum_319": 0.90, "aluminum_die_cast": 0.90, "aluminum_6082": 0.90, "aluminum_7075": 0.90, "titanium": 0.30, "zinc": 1.25,
    "magnesium": 1.75,
}

ALUMINUM = ("aluminum", "aluminum_cast", "aluminum_356_t6", "aluminum_319", "aluminum_die_cast", "aluminum_6082", "aluminum_7075")
SOFT = (*ALUMINUM, "magnesium")
