"""Did you mean: spellings from the other side of the Atlantic, and the places where keys are often looked for.

Only texts are compared here; which names are known is told by the caller. Loaded when a name is not known,
never on the road of a good spec.
"""

import difflib

# British and everyday spellings, word by word, and what the vocabulary says instead.
AMERICAN = {
    "aluminium": "aluminum",
    "centre": "center",
    "centreline": "centerline",
    "carburettor": "carburetor",
    "carburetter": "carburetor",
    "carb": "carburetor",
    "petrol": "gasoline",
    "litre": "liter",
    "litres": "liter",
    "metre": "meter",
    "colour": "color",
    "grey": "gray",
    "fibre": "fiber",
    "vapour": "vapor",
    "mould": "mold",
    "gage": "gauge",
    "inlet": "intake",
    "gudgeon": "pin",
    "wrist": "pin",
    "tappet": "lifter",
    "tappets": "lifters",
    "follower": "lifter",
    "followers": "lifters",
    "conrod": "rod",
    "conrods": "rods",
    "crankshaft": "crank",
    "cam": "camshaft",
    "sump": "pan",
    "collet": "lock",
    "collets": "locks",
    "keepers": "locks",
    "cotters": "locks",
    "spanner": "wrench",
    "bonnet": "hood",
    "molybdenum": "moly",
    "phosphorous": "phosphorus",
    "dia": "diameter",
    "od": "outside_diameter",
    "id": "inside_diameter",
    "qty": "quantity",
    "temp": "temperature",
    "vol": "volume",
    "weight": "mass",
    "mls": "multilayer_steel",
    "rtv": "silicone",
}

# Where a builder may look for a key, and where it stands. A bare name holds under any heading.
USUAL_PLACES = {
    "engine.bore": "block.bore",
    "engine.stroke": "crank.stroke",
    "engine.rod_length": "rods.length",
    "engine.deck_height": "block.deck_height",
    "engine.compression_height": "pistons.compression_height",
    "engine.displacement": "engine.stated_displacement",
    "engine.compression_ratio": "engine.stated_compression_ratio",
    "engine.compression": "engine.stated_compression_ratio",
    "engine.rev_limit": "build.rev_limit",
    "engine.redline": "build.redline",
    "engine.duty": "build.duty",
    "engine.induction": "build.induction",
    "engine.fuel": "build.fuel",
    "engine.power": "build.peak_power",
    "engine.torque": "build.peak_torque",
    "engine.oil": "oiling.grade",
    "build.displacement": "engine.stated_displacement",
    "build.compression_ratio": "engine.stated_compression_ratio",
    "build.cylinders": "engine.cylinders",
    "build.firing_order": "engine.firing_order",
    "build.octane": "fuel_system.octane",
    "build.boost": "boost.pressure",
    "build.power": "build.peak_power",
    "build.torque": "build.peak_torque",
    "build.rpm_limit": "build.rev_limit",
    "build.use": "build.duty",
    "block.stroke": "crank.stroke",
    "block.deck_clearance": "pistons.below_deck",
    "block.piston_to_deck": "pistons.below_deck",
    "block.cylinders": "engine.cylinders",
    "block.main_journal_diameter": "bearings.main.journal_diameter",
    "block.main_bore": "bearings.main.housing_bore",
    "block.cam_bore": "bearings.cam.housing_bore",
    "block.lifter_bore": "lifters.bore",
    "crank.main_journal_diameter": "bearings.main.journal_diameter",
    "crank.rod_journal_diameter": "bearings.rod.journal_diameter",
    "crank.pin_diameter": "bearings.rod.journal_diameter",
    "crank.journal_diameter": "bearings.main.journal_diameter",
    "crank.main_clearance": "bearings.main.clearance",
    "crank.firing_order": "engine.firing_order",
    "crank.balance": "balance.scheme",
    "rods.ratio": "rods.length",
    "rods.bearing_clearance": "bearings.rod.clearance",
    "rods.journal_diameter": "bearings.rod.journal_diameter",
    "rods.housing_bore": "bearings.rod.housing_bore",
    "rods.big_end_bore": "bearings.rod.housing_bore",
    "rods.bolt_torque": "joints.rod.torque",
    "rods.bolt_stretch": "joints.rod.stretch",
    "pistons.deck_clearance": "pistons.below_deck",
    "pistons.deck_height": "pistons.below_deck",
    "pistons.above_deck": "pistons.below_deck",
    "pistons.pin_height": "pistons.compression_height",
    "pistons.pin_offset": "pistons.pin_offset_to_thrust_side",
    "pistons.volume": "pistons.dish_volume",
    "pistons.crown_volume": "pistons.dish_volume",
    "pistons.dish": "pistons.dish_volume",
    "pistons.dome": "pistons.dome_volume",
    "pistons.valve_relief_volume": "pistons.dish_volume",
    "pistons.valve_pocket_depth": "intake.pocket.depth",
    "pistons.ring_gap": "rings.top.end_gap",
    "pistons.rings": "rings",
    "pistons.clearance": "pistons.wall_clearance",
    "pistons.skirt_clearance": "pistons.wall_clearance",
    "pistons.valve_clearance": "intake.piston_gap",
    "rings.end_gap": "rings.top.end_gap",
    "rings.gap": "rings.top.end_gap",
    "rings.first": "rings.top",
    "rings.middle": "rings.second",
    "bearings.crank": "bearings.main",
    "bearings.thrust": "crank.end_play",
    "oiling.oil": "oiling.grade",
    "oiling.viscosity": "oiling.grade",
    "oiling.weight": "oiling.grade",
    "oiling.pressure": "oiling.pressure_hot",
    "oiling.capacity": "oiling.pan.capacity",
    "heads.gasket": "head_gasket",
    "heads.gasket_thickness": "head_gasket.compressed_thickness",
    "heads.combustion_chamber_volume": "heads.chamber_volume",
    "heads.chamber": "heads.chamber_volume",
    "heads.bolt_torque": "joints.head.torque",
    "heads.stud_torque": "joints.head.torque",
    "heads.valves": "intake.valve",
    "heads.springs": "intake.spring",
    "heads.intake_valve_diameter": "intake.valve.head_diameter",
    "heads.exhaust_valve_diameter": "exhaust.valve.head_diameter",
    "heads.intake_flow": "intake.port.flow",
    "heads.exhaust_flow": "exhaust.port.flow",
    "heads.rockers": "rockers",
    "head_gasket.thickness": "head_gasket.compressed_thickness",
    "head_gasket.crushed_thickness": "head_gasket.compressed_thickness",
    "camshaft.lift": "intake.lobe.lift",
    "camshaft.intake_lift": "intake.lobe.lift",
    "camshaft.exhaust_lift": "exhaust.lobe.lift",
    "camshaft.duration": "intake.lobe.duration_at_050",
    "camshaft.intake_duration": "intake.lobe.duration_at_050",
    "camshaft.exhaust_duration": "exhaust.lobe.duration_at_050",
    "camshaft.lobe_separation_angle": "camshaft.lobe_separation",
    "camshaft.intake_centerline": "timing_set.installed_centerline",
    "camshaft.installed_centerline": "timing_set.installed_centerline",
    "camshaft.centerline": "timing_set.installed_centerline",
    "camshaft.advance": "camshaft.ground_advance",
    "camshaft.lash": "intake.lash_hot",
    "camshaft.kind": "camshaft.grind",
    "camshaft.bearing_clearance": "bearings.cam.clearance",
    "camshaft.journal_diameter": "bearings.cam.journal_diameter",
    "camshaft.thrust_plate": "camshaft.held_by",
    "timing_set.centerline": "timing_set.installed_centerline",
    "lifters.lash": "intake.lash_hot",
    "pushrods.diameter": "pushrods.outside_diameter",
    "pushrods.wall_thickness": "pushrods.wall",
    "intake.lift": "intake.lobe.lift",
    "intake.valve_lift": "intake.lobe.card_valve_lift",
    "intake.duration": "intake.lobe.duration_at_050",
    "intake.lash": "intake.lash_hot",
    "intake.springs.spring": "intake.spring",
    "intake.valve.lash": "intake.lash_hot",
    "intake.valve.diameter": "intake.valve.head_diameter",
    "intake.valve.seat_angle": "intake.seat.angle",
    "intake.valve.piston_clearance": "intake.piston_gap",
    "intake.spring.height": "intake.spring.installed_height",
    "intake.spring.pressure": "intake.spring.seat_load",
    "intake.spring.seat_pressure": "intake.spring.seat_load",
    "intake.spring.open_pressure": "intake.spring.open_load",
    "intake.spring.closed_load": "intake.spring.seat_load",
    "intake.spring.coil_bind": "intake.spring.solid_height",
    "intake.spring.coil_bind_height": "intake.spring.solid_height",
    "intake.spring.maximum_lift": "intake.spring.rated_lift",
    "intake.manifold": "induction.manifold",
    "intake.rocker_ratio": "rockers.ratio",
    "intake.pushrod_length": "intake.pushrod.length",
    "exhaust.lift": "exhaust.lobe.lift",
    "exhaust.valve_lift": "exhaust.lobe.card_valve_lift",
    "exhaust.duration": "exhaust.lobe.duration_at_050",
    "exhaust.lash": "exhaust.lash_hot",
    "exhaust.valve.lash": "exhaust.lash_hot",
    "exhaust.valve.diameter": "exhaust.valve.head_diameter",
    "exhaust.spring.height": "exhaust.spring.installed_height",
    "exhaust.spring.seat_pressure": "exhaust.spring.seat_load",
    "exhaust.spring.open_pressure": "exhaust.spring.open_load",
    "exhaust.spring.coil_bind": "exhaust.spring.solid_height",
    "exhaust.header": "exhaust_system.primary",
    "exhaust.manifold": "exhaust_system.exhaust_manifold",
    "exhaust.primary": "exhaust_system.primary",
    "fuel_system.fuel": "build.fuel",
    "fuel_system.carburetor": "induction.carburetor",
    "fuel_system.injector_size": "fuel_system.injector_flow",
    "ignition.timing": "ignition.total_advance",
    "ignition.advance": "ignition.total_advance",
    "ignition.firing_order": "ignition.spark_order",
    "exhaust_system.header": "exhaust_system.primary",
    "boost.intercooler": "boost.cooler",
    "order.parts": "order.items",
    "assembly.sign_offs": "assembly.signed",
    "assembly.sign_off": "assembly.signed",
    # bare names, wherever they stand
    "deck_clearance": "pistons.below_deck",
    "displacement": "engine.stated_displacement",
    "compression_ratio": "engine.stated_compression_ratio",
    "firing_order": "engine.firing_order",
    "valves": "intake.valve",
    "valve_springs": "intake.spring",
    "springs": "intake.spring",
    "spring": "intake.spring",
    "valve": "intake.valve",
    "retainers": "intake.retainer",
    "cylinder_heads": "heads",
    "cylinder_head": "heads",
    "gasket": "head_gasket",
    "connecting_rods": "rods",
    "oil": "oiling",
    "oil_pump": "oiling.pump",
    "oil_pan": "oiling.pan",
    "lubrication": "oiling",
    "carburetor": "induction.carburetor",
    "throttle_body": "induction.throttle",
    "intake_manifold": "induction.manifold",
    "manifold": "induction.manifold",
    "spark_plugs": "ignition.spark_plug",
    "spark_plug": "ignition.spark_plug",
    "distributor": "ignition.distributor",
    "timing": "ignition.total_advance",
    "water_pump": "cooling.water_pump",
    "radiator": "cooling.radiator",
    "thermostat": "cooling.thermostat",
    "header": "exhaust_system.primary",
    "headers": "exhaust_system.primary",
    "turbo": "boost",
    "turbocharger": "boost",
    "supercharger": "boost",
    "blower": "boost",
    "fuel": "fuel_system",
    "injectors": "fuel_system.injectors",
    "clutch": "driveline.clutch",
    "converter": "driveline.converter",
    "transmission": "build.transmission",
    "balancer": "damper",
    "harmonic_balancer": "damper",
    "flexplate": "flywheel",
    "timing_chain": "timing_set",
    "timing_gear": "timing_set",
    "bolts": "joints",
    "fasteners": "joints",
    "torques": "joints",
    "studs": "joints",
    "seals": "sealing",
    "gaskets": "sealing",
    "sealant": "sealing.sealed_places",
    "parts": "order.items",
    "steps": "assembly.steps",
    "stage": "build.stage",
    "duty": "build.duty",
    "rev_limit": "build.rev_limit",
    "redline": "build.redline",
    "name": "build.name",
}


def american(name):
    """``name`` in lower case, words joined by underscores, each in the vocabulary's spelling."""
    words = []
    for word in name.strip().lower().replace("-", "_").replace(" ", "_").split("_"):
        word = AMERICAN.get(word, word)
        if word and word not in words[-1:]:  # gudgeon_pin is the pin, not a pin_pin
            words.append(word)
    return "_".join(words)


def nearest(name, known):
    """The one of ``known`` that ``name`` was most likely meant to be, or None.

    ``known`` is any collection of texts. Spelling, number (rod, rods), order of words and single slips of
    the finger are forgiven, in that order; a name near to nothing gets None.
    """
    known = list(known)
    if not name or not known:
        return None
    plain = {american(text): text for text in reversed(known)}
    wanted = american(name)
    for candidate in (wanted, wanted + "s", wanted.removesuffix("s"), wanted.removesuffix("es")):
        if candidate in plain:
            return plain[candidate]
    place = USUAL_PLACES.get(name)
    if place in known:
        return place
    words = set(wanted.split("_"))
    same = [text for text, _ in plain.items() if set(text.split("_")) == words]
    if len(same) == 1:
        return plain[same[0]]
    close = difflib.get_close_matches(wanted, plain, n=1, cutoff=0.74)
    if close:
        return plain[close[0]]
    longer = [text for text in plain if len(wanted) > 3 and text.startswith(wanted)]  # turbo for turbocharged
    if len(longer) == 1:
        return plain[longer[0]]
    wider = [text for text in plain if words < set(text.split("_"))]
    return plain[wider[0]] if len(wider) == 1 else None


FASTENERS = ("cap_screws", "cap_screw", "bolts", "bolt", "studs", "stud", "nuts", "nut", "screws", "screw", "fasteners")


def joint_meant(name, known):
    """The one of the ``known`` joints that ``name`` spells otherwise, or misses by one slip of the finger, or None.

    Stricter than ``nearest``: a joint may have any name, and a header is not a head.
    """
    wanted = american(name)
    for fastener in FASTENERS:
        wanted = wanted.removesuffix(f"_{fastener}")
    for other in known:
        if wanted in (other, other + "s", other + "es") or len(other) > 3 and _one_slip(wanted, other):
            return other
    return None


def _one_slip(first, second):
    """Whether two texts differ by one letter, or by two neighbors that changed places."""
    while first and second and first[0] == second[0]:
        first, second = first[1:], second[1:]
    while first and second and first[-1] == second[-1]:
        first, second = first[:-1], second[:-1]
    return max(len(first), len(second)) <= 1 or len(first) == 2 and first == second[::-1]
