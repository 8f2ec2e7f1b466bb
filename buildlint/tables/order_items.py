"""What the items of an order are: how many an engine takes, which are used once, what a kit is expected to hold.

Counts are for a pushrod engine with two valves to a cylinder; locks are counted as halves. Names as they are said
by builders are led to the items of the schema. Source of all rows: arithmetic, and common practice, no source.
"""

# Pieces for each valve, each cylinder, each head.
FOR_EACH_VALVE = {"valve": 1, "pushrod": 1, "lifter": 1, "rocker": 1, "valve_spring": 1, "retainer": 1, "valve_lock": 2,
                  "stem_seal": 1, "lash_cap": 1, "spring_cup": 1}
FOR_EACH_CYLINDER = {"piston": 1, "rod": 1, "spark_plug": 1}
FOR_EACH_HEAD = {"head": 1, "head_gasket": 1, "intake_gasket": 1, "exhaust_gasket": 1, "valve_cover_gasket": 1}
ONE_FOR_AN_ENGINE = ("crank", "camshaft", "timing_set", "rear_main_seal", "front_seal", "pan_gasket", "timing_cover_gasket",
                     "gasket_set", "oil_pump", "oil_pan", "damper", "distributor", "distributor_gear", "intake_manifold",
                     "flywheel", "flexplate")
# Sold as one set for the engine or one for each place: (item, word of the places).
SETS_OR_PIECES = {"ring_set": "cylinders", "rod_bearing_set": "cylinders", "main_bearing_set": "block_mains",
                  "cam_bearing_set": "block_mains"}
HEAD_FASTENERS = ("head_stud", "head_bolt", "head_nut", "head_washer")

# What yields, hardens or takes a set when it is used.
GASKETS = ("head_gasket", "intake_gasket", "exhaust_gasket", "pan_gasket", "valve_cover_gasket", "timing_cover_gasket", "gasket_set")
USED_ONCE = (*GASKETS, "rear_main_seal", "front_seal", "stem_seal", "core_plug", "ring_set")
MOLDED = ("pan_gasket", "valve_cover_gasket")  # of molded rubber they bear a second time
WORN_IN = ("main_bearing_set", "rod_bearing_set", "cam_bearing_set")

# The joint that a fastener belongs to: whether it yields is written there.
JOINT_OF = {"head_bolt": "head", "head_stud": "head", "main_fastener": "main", "rod_bolt": "rod", "flywheel_bolt": "flywheel",
            "damper_bolt": "damper", "cam_bolt": "cam_sprocket", "intake_bolt": "intake_manifold"}

# Small, made to measure or easily dropped: the last one missing stops the job.
SMALL_AND_CRITICAL = ("pushrod", "valve_lock", "lash_cap", "head_stud", "head_nut", "head_washer", "rod_bolt", "rocker_fastener",
                      "cam_bolt")

# What an engine that is together already can wait for, by the step that needs it and by the item.
LONG_BLOCK_WAITS_AT = ("pushrods", "rockers", "valley_tray_and_intake", "flywheel", "exhaust_and_plugs", "damper", "fill_oil_filter",
                       "prime", "covers", "pressure_test", "sign_off", "first_fire")
LONG_BLOCK_WAITS_FOR = ("pushrod", "rocker", "intake_manifold", "intake_gasket", "carburetor", "throttle_body", "injector", "fuel_pump",
                        "distributor", "damper", "flywheel", "flexplate", "valve_cover_gasket", "exhaust_gasket", "spark_plug",
                        "supercharger", "alternator", "water_pump")

# What a full set of gaskets is expected to hold.
IN_A_GASKET_SET = ("head_gasket", "intake_gasket", "exhaust_gasket", "valve_cover_gasket", "pan_gasket", "timing_cover_gasket",
                   "rear_main_seal", "front_seal", "stem_seal")
WITH_STUDS = ("head_nut", "head_washer")

# The word that names the part of an item in the spec; where the sides differ, for intake and exhaust.
PART_NAMED_BY = {
    "block": "block_part", "crank": "crank_part", "rod": "rod_part", "piston": "piston_part", "camshaft": "camshaft_part",
    "timing_set": "timing_set_part", "head": "head_part", "head_gasket": "head_gasket_part", "damper": "damper_part",
    "flywheel": "flywheel_part", "flexplate": "flywheel_part", "oil_pump": "oil_pump_part", "oil_pan": "oil_pan_part",
    "intake_manifold": "manifold_part", "carburetor": "carburetor_part", "throttle_body": "throttle_part",
    "fuel_pump": "fuel_pump_part", "distributor": "distributor_part", "spark_plug": "spark_plug_part", "water_pump": "water_pump_part",
    "alternator": "alternator_part", "rear_main_seal": "rear_main_seal_part", "front_seal": "front_seal_part",
    "main_bearing_set": "main_bearing_part", "rod_bearing_set": "rod_bearing_part", "cam_bearing_set": "cam_bearing_part",
    "head_stud": "head_joint_part", "head_bolt": "head_joint_part", "head_nut": "head_joint_nut_part",
    "head_washer": "head_joint_washer_part", "main_fastener": "main_joint_part", "rod_bolt": "rod_joint_part", "lifter": "lifter_part",
    "pushrod": "pushrod_part", "rocker": "rocker_part",
}
PART_NAMED_BY_SIDE = {"valve": "valve_part", "valve_spring": "spring_part", "retainer": "retainer_part", "valve_lock": "lock_part",
                      "stem_seal": "seal_part", "lifter": "lifter_part", "pushrod": "pushrod_part", "rocker": "rocker_part"}

CALLED = {
    "rear_seal": "rear_main_seal", "main_seal": "rear_main_seal", "rear_crank_seal": "rear_main_seal",
    "timing_cover_seal": "front_seal", "front_crank_seal": "front_seal", "front_cover_seal": "front_seal", "crank_seal": "front_seal",
    "valve_seal": "stem_seal", "valve_stem_seal": "stem_seal", "oil_pan_gasket": "pan_gasket", "rocker_cover_gasket": "valve_cover_gasket",
    "timing_gasket": "timing_cover_gasket", "front_cover_gasket": "timing_cover_gasket", "intake_manifold_gasket": "intake_gasket",
    "exhaust_manifold_gasket": "exhaust_gasket", "header_gasket": "exhaust_gasket", "nut": "head_nut", "stud_nut": "head_nut",
    "washer": "head_washer", "stud_washer": "head_washer", "lock": "valve_lock", "keeper": "valve_lock", "main_bolt": "main_fastener",
    "main_stud": "main_fastener", "spring": "valve_spring", "guide_seal": "stem_seal",
}


def item_called(text):
    """The item of the schema that a builder's words mean, as far as they can be told: "head gaskets" is head_gasket."""
    name = "_".join(str(text).lower().replace("-", " ").replace("_", " ").split())
    one = name[:-1] if name.endswith("s") and not name.endswith("ss") else name
    return CALLED.get(name) or CALLED.get(one, one)


def first_line(order_lines, wanted):
    """The number, from 1, of the first line of an order for which ``wanted`` holds; there a count is told for all of them."""
    return next(number for number, row in enumerate(order_lines, 1) if wanted(row))
