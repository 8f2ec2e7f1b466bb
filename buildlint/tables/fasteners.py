"""Strength classes, nut factors and scatter of bolted joints.

A written value (yield_strength, nut_factor) always wins over these rows.
"""

from ..quantities import q

# class: (proof strength, yield strength, tensile strength) in Pa, and whether a standard fixes them.
# ISO 898-1 rows: proof from the published proof loads; yield and tensile from memory. SAE rows: SAE J429,
# as tabled in Shigley, Mechanical Engineering Design, 9th ed., Table 8-9. Stud steels named by their tensile
# strength have no standard: proof 0.79 and yield 0.88 of tensile are assumed; common practice, no source.
# Austenitic class 70: ISO 3506-1, from memory; it has no proof value, 0.9 of yield is used.
STRENGTH_CLASSES = {
    "iso_8_8": (q("580 MPa"), q("640 MPa"), q("800 MPa"), True),
    "iso_9_8": (q("650 MPa"), q("720 MPa"), q("900 MPa"), True),
    "iso_10_9": (q("830 MPa"), q("940 MPa"), q("1040 MPa"), True),
    "iso_12_9": (q("970 MPa"), q("1100 MPa"), q("1220 MPa"), True),
    "sae_grade_2": (q("55 ksi"), q("57 ksi"), q("74 ksi"), True),
    "sae_grade_5": (q("85 ksi"), q("92 ksi"), q("120 ksi"), True),
    "sae_grade_8": (q("120 ksi"), q("130 ksi"), q("150 ksi"), True),
    "170_ksi": (q("135 ksi"), q("150 ksi"), q("170 ksi"), False),
    "190_ksi": (q("150 ksi"), q("167 ksi"), q("190 ksi"), False),
    "200_ksi": (q("158 ksi"), q("176 ksi"), q("200 ksi"), False),
    "220_ksi": (q("174 ksi"), q("194 ksi"), q("220 ksi"), False),
    "260_ksi": (q("206 ksi"), q("229 ksi"), q("260 ksi"), False),
    "stainless_70": (q("405 MPa"), q("450 MPa"), q("700 MPa"), True),
}

# ISO 898-1 gives class 8.8 above 16 mm its own row (from memory).
ISO_8_8_CHANGES_ABOVE = q("16 mm")
ISO_8_8_ABOVE = (q("600 MPa"), q("660 MPa"), q("830 MPa"), True)

# state of thread and turning face: nut factor (low, usual, high). Ranges: Shigley Table 8-15, a bolted-joint
# handbook's means and supplier figures; moly, extreme-pressure and sealant rows common practice, no source;
# adhesives from VDI 2230 friction class C through K = 0.02 + 1.16 mu.
NUT_FACTORS = {
    "dry": (0.15, 0.20, 0.30),
    "engine_oil": (0.12, 0.16, 0.21),
    "moly_paste": (0.10, 0.13, 0.16),
    "extreme_pressure_paste": (0.10, 0.12, 0.14),
    "anti_seize": (0.10, 0.13, 0.18),
    "assembly_lube": (0.12, 0.16, 0.21),
    "wax": (0.10, 0.13, 0.16),
    "ptfe_paste": (0.11, 0.14, 0.18),
    "ptfe_tape": (0.11, 0.14, 0.18),
    "anaerobic_sealant": (0.14, 0.18, 0.24),
    "threadlocker_medium": (0.14, 0.18, 0.24),
    "threadlocker_high": (0.14, 0.18, 0.24),
    "sealing_threadlocker": (0.14, 0.18, 0.24),
    "water_plug_sealer": (0.14, 0.18, 0.24),
    "silicone": (0.12, 0.20, 0.30),
    "gasket_shellac": (0.12, 0.20, 0.30),
}

# Friction coefficient that a nut factor stands for: K = 0.02 + 1.16 mu, fitted to the long form for hex and
# twelve-point faces of normal size (VDI 2230).
NUT_FACTOR_OFFSET, NUT_FACTOR_SLOPE = 0.02, 1.16

# How far the preload may lie from its nominal, plus or minus, by the method of tightening: VDI 2230 tightening
# factors turned into (a - 1)/(a + 1), middle of each range; stretch common practice, no source.
PRELOAD_SCATTER = {
    "stretch": 0.07,
    "torque_angle": 0.13,
    "yield_angle": 0.13,
    "torque": 0.28,
    "power_driver": 0.35,
    "impact": 0.52,
}

CRITICAL_JOINTS = ("head", "main", "main_side", "rod", "rocker", "rocker_intake", "rocker_exhaust", "cam_sprocket",
                   "damper", "flywheel", "flexplate")
