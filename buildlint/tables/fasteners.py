"""Strength classes, nut factors and scatter of fasteners, and which joints an engine hangs on.

A written value (yield_strength, nut_factor) always wins over these rows. What the threaded and the clamped metal
bears stands in joint_metals.py.
"""

from ..quantities import q

# class: (proof strength, yield strength, tensile strength) in Pa, and whether a standard fixes them.
# ISO 898-1 rows: proof from the published proof loads; tensile strength, and the row of class 8.8 above 16 mm, as public
# extracts of the standard have them; yield from memory. SAE rows: SAE J429,
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

# ISO 898-1 gives class 8.8 above 16 mm its own row.
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
    # A dry zinc-plated thread drags more: Shigley Table 8-15 gives 0.20, a bolted-joint handbook 0.295 as mean.
    "dry_zinc_plated": (0.17, 0.22, 0.35),
}

# Friction coefficient that a nut factor stands for: K = 0.02 + 1.16 mu, fitted to the long form for hex and
# twelve-point faces of normal size (VDI 2230).
NUT_FACTOR_OFFSET, NUT_FACTOR_SLOPE = 0.02, 1.16

# Where the nut factor was measured on the very parts, the tension scatters by this much (VDI 2230, tightening factor 1.4
# to 1.6); the lowest and highest nut factor follow it.
SCATTER_WITH_MEASURED_FRICTION = 0.20

# Mean diameter of the turning face over the thread's, where the face is not written: halfway between 1 and 1.5 d
# (Shigley, Mechanical Engineering Design, 9th ed., section 8-8).
USUAL_FACE_MEAN = 1.25
# Clearance hole over the thread, where it is not written: ISO 273, medium row, rounded.
USUAL_HOLE = 1.1
WASHER_SPREAD = 1.6  # washer thicknesses by which the pressed ring grows past the turning face: VDI 2230-1, from memory

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

ROCKER_JOINTS = ("rocker", "rocker_intake", "rocker_exhaust")

# Covers that squeeze a soft gasket or a bead: their torque is chosen for the gasket, not for the bolt.
GASKETED_COVERS = ("oil_pan", "valve_cover", "timing_cover", "valley_cover", "intake_manifold", "exhaust_manifold", "water_pump",
                   "thermostat_housing", "distributor_clamp")

# Classes of which hydrogen embrittlement is feared when they are electroplated: hardness that may exceed 390 HV, and
# those of 360 to 390 HV (ISO 4042:2018, section 4.4; which class lies where: ISO 898-1 hardness rows, from memory).
EMBRITTLING = ("iso_12_9", "170_ksi", "190_ksi", "200_ksi", "220_ksi", "260_ksi")
NEARLY_EMBRITTLING = ("iso_10_9", "sae_grade_8")
ELECTROPLATED = ("zinc_electroplated", "cadmium", "nickel", "copper")

THREADLOCKERS = ("threadlocker_medium", "threadlocker_high", "sealing_threadlocker")
# Products that close a leak path along a thread.
THREAD_SEALANTS = ("ptfe_paste", "anaerobic_sealant", "sealing_threadlocker", "ptfe_tape", "silicone", "gasket_shellac",
                   "water_plug_sealer")

# Most that an 8 mm rocker bolt's thread takes: in bare aluminum, and in an insert. Trade press; common practice, no source.
ROCKER_BOLT_TORQUE = (q("24 lbf-ft"), q("30 lbf-ft"))

# Spark plugs: (thread diameter in mm, seat): torque range in iron and in aluminum heads. Published tables of plug
# makers agree on these; a dry new plug in a cold head.
PLUG_TORQUE = {
    (18, "gasket"): ((q("34 N*m"), q("44 N*m")), (q("34 N*m"), q("44 N*m"))),
    (14, "gasket"): ((q("24 N*m"), q("34 N*m")), (q("24 N*m"), q("29 N*m"))),
    (12, "gasket"): ((q("15 N*m"), q("24 N*m")), (q("15 N*m"), q("20 N*m"))),
    (10, "gasket"): ((q("10 N*m"), q("15 N*m")), (q("10 N*m"), q("12 N*m"))),
    (8, "gasket"): ((q("8 N*m"), q("10 N*m")), (q("8 N*m"), q("10 N*m"))),
    (18, "taper"): ((q("20 N*m"), q("29 N*m")), (q("20 N*m"), q("29 N*m"))),
    (14, "taper"): ((q("15 N*m"), q("24 N*m")), (q("10 N*m"), q("20 N*m"))),
}

# What a written torque may have been meant in: unit as read, (unit meant, factor to the torque as read). Definitions of
# the units.
OTHER_TORQUE_UNITS = {
    "lbf-ft": (("lbf-in", 1 / 12), ("N*m", 0.7375621), ("kgf*m", 7.2330139)),
    "lbf-in": (("lbf-ft", 12.0), ("N*m", 8.8507458)),
    "N*m": (("lbf-ft", 1.3558179), ("lbf-in", 0.1129848), ("kgf*m", 9.80665)),
}
# Shares of proof that no sheet asks for (less than a twelfth is pound-inches for pound-feet), and those that are
# ordinary: common practice, no source.
ABSURD_SHARE = (0.08, 1.5)
ORDINARY_SHARE = (0.35, 0.95)
