"""Strength classes, nut factors and scatter of bolted joints.

A written value (yield_strength, nut_factor) always wins over these rows.
"""

KSI = 6894757.293168361  # Pa in 1000 psi, from the exact pound-force and inch
MPA = 1e6

# class: (proof strength, yield strength, tensile strength) in Pa, and whether a standard fixes them.
# ISO 898-1 rows: proof from the published proof loads; yield and tensile from memory. SAE rows: SAE J429,
# as tabled in Shigley, Mechanical Engineering Design, 9th ed., Table 8-9. Stud steels named by their tensile
# strength have no standard: proof 0.79 and yield 0.88 of tensile are assumed; common practice, no source.
# Austenitic class 70: ISO 3506-1, from memory; it has no proof value, 0.9 of yield is used.
STRENGTH_CLASSES = {
    "iso_8_8": (580 * MPA, 640 * MPA, 800 * MPA, True),
    "iso_9_8": (650 * MPA, 720 * MPA, 900 * MPA, True),
    "iso_10_9": (830 * MPA, 940 * MPA, 1040 * MPA, True),
    "iso_12_9": (970 * MPA, 1100 * MPA, 1220 * MPA, True),
    "sae_grade_2": (55 * KSI, 57 * KSI, 74 * KSI, True),
    "sae_grade_5": (85 * KSI, 92 * KSI, 120 * KSI, True),
    "sae_grade_8": (120 * KSI, 130 * KSI, 150 * KSI, True),
    "170_ksi": (135 * KSI, 150 * KSI, 170 * KSI, False),
    "190_ksi": (150 * KSI, 167 * KSI, 190 * KSI, False),
    "200_ksi": (158 * KSI, 176 * KSI, 200 * KSI, False),
    "220_ksi": (174 * KSI, 194 * KSI, 220 * KSI, False),
    "260_ksi": (206 * KSI, 229 * KSI, 260 * KSI, False),
    "stainless_70": (0.9 * 450 * MPA, 450 * MPA, 700 * MPA, True),
}

# ISO 898-1 gives class 8.8 above 16 mm its own row (from memory).
ISO_8_8_ABOVE_16_MM = (600 * MPA, 660 * MPA, 830 * MPA, True)

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
