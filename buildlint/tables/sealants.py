"""What sealing products bear: fluids, heat and gaps; and which joint a sealed place belongs to. No logic stands here."""

from ..quantities import q

# product on a thread: what its hole may open into. Fuel and heat of silicone and threadlockers: published data sheets'
# usual range, from memory; the rest common practice, no source.
THREAD_SUITS = {
    "ptfe_paste": ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port"),
    "anaerobic_sealant": ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port"),
    "sealing_threadlocker": ("coolant", "oil_gallery", "crankcase", "lifter_valley"),
    "threadlocker_medium": ("crankcase", "lifter_valley"),
    "threadlocker_high": ("crankcase", "lifter_valley"),
    "ptfe_tape": ("coolant",),
    "silicone": ("coolant", "crankcase", "lifter_valley"),
    "gasket_shellac": ("coolant", "lifter_valley"),
    "water_plug_sealer": ("coolant",),
    "anti_seize": (),
}

# product on a face: fluids it holds back.
FACE_SUITS = {
    "silicone": ("oil", "coolant", "gas"),
    "silicone_low_vapor": ("oil", "coolant", "gas"),
    "anaerobic_flange": ("oil", "coolant", "fuel"),
    "ptfe_paste": ("oil", "coolant", "fuel"),
    "anaerobic_sealant": ("oil", "coolant", "fuel"),
    "sealing_threadlocker": ("oil", "coolant", "fuel"),
    "gasket_shellac": ("oil", "coolant"),
    "water_plug_sealer": ("coolant",),
    "gasket_only": ("oil", "coolant", "fuel", "gas"),
}

# Highest lasting temperature. Threadlocker -54 to 149 degC: a published data sheet; silicone 260 degC and anaerobics
# 150 degC: usual ranges, from memory.
HEAT_LIMIT = {
    "silicone": q("260 degC"), "silicone_low_vapor": q("260 degC"), "anaerobic_flange": q("150 degC"), "anaerobic_sealant": q("150 degC"),
    "threadlocker_medium": q("149 degC"), "threadlocker_high": q("149 degC"), "sealing_threadlocker": q("149 degC"), "ptfe_paste": q("200 degC"),
    "ptfe_tape": q("230 degC"), "gasket_shellac": q("150 degC"), "water_plug_sealer": q("120 degC"),
}

# Largest gap a product fills: from memory, common practice, no source.
GAP_LIMIT = {"silicone": q("6 mm"), "silicone_low_vapor": q("6 mm"), "anaerobic_flange": q("0.25 mm")}

# What a place holds back where nothing is written.
USUAL_MEDIUM = {"water_pump": "coolant", "thermostat_housing": "coolant", "carburetor_base": "fuel"}

# Words of a medium that mean fuel.
FUEL_WORDS = ("fuel", "gasoline", "petrol", "alcohol", "methanol", "ethanol", "mixture")

INTAKE_CORNERS = ("intake_front_left", "intake_front_right", "intake_rear_left", "intake_rear_right")
PAN_CORNERS = ("pan_front_left", "pan_front_right", "pan_rear_left", "pan_rear_right")
END_RAILS = ("intake_end_rail_front", "intake_end_rail_rear")
# Where a loose crumb of sealant ends in the oil pickup or a drain.
NEAR_THE_PICKUP = (*PAN_CORNERS, "timing_cover", "rear_cover", "valley_cover")

# The joint that closes a place.
JOINT_OF_PLACE = {
    **dict.fromkeys((*INTAKE_CORNERS, *END_RAILS, "carburetor_base"), "intake_manifold"),
    **dict.fromkeys((*PAN_CORNERS, "rear_cover"), "oil_pan"),
    "timing_cover": "timing_cover", "valley_cover": "valley_cover", "valve_cover": "valve_cover", "water_pump": "water_pump",
    "thermostat_housing": "thermostat_housing", "keyway": "damper",
}

# What a seal's rubber stands while a part is baked: handbooks of seals, from memory.
SEAL_HEAT_LIMIT = {
    "nitrile": q("110 degC"), "polyacrylate": q("150 degC"), "silicone": q("200 degC"), "fluorocarbon": q("200 degC"), "ptfe": q("230 degC"),
    "rope": q("200 degC"),
}


# Products as they are said in a sentence.
PRODUCT_NAMES = {
    "ptfe_paste": "PTFE paste", "ptfe_tape": "PTFE tape", "anaerobic_sealant": "anaerobic sealant", "anaerobic_flange": "anaerobic flange sealer",
    "sealing_threadlocker": "sealing threadlocker", "threadlocker_medium": "medium threadlocker", "threadlocker_high": "high-strength threadlocker",
    "anti_seize": "anti-seize", "silicone": "silicone", "silicone_low_vapor": "low-vapor silicone", "gasket_shellac": "gasket shellac",
    "water_plug_sealer": "water plug sealer", "gasket_only": "a gasket alone", "none": "nothing", "dry": "nothing", "engine_oil": "engine oil",
    "moly_paste": "moly paste", "extreme_pressure_paste": "extreme-pressure paste", "assembly_lube": "assembly lube", "wax": "wax",
    "copper_spray": "copper spray", "spray_round_coolant": "spray round the coolant holes", "brushed": "brushed sealer",
}

# What a hole may break into, as it is said in a sentence.
OPENINGS = {"coolant": "a water jacket", "oil_gallery": "an oil gallery", "crankcase": "the crankcase", "lifter_valley": "the lifter valley",
          "rocker_area": "the rocker area", "intake_port": "the intake port", "exhaust_port": "an exhaust port",
          "combustion_chamber": "the combustion chamber", "nothing": "nothing"}

# Joints that lie inside the crankcase: a hole that opens into it there loses nothing.
INSIDE_JOINTS = ("main", "rod", "cam_sprocket", "cam_thrust_plate", "oil_pump", "lifter_guide")
