"""What belongs to which step of the work: joints, measurements, orientation, products and reminders.

Facts of the trade beside ``tables.build_sequence``, for the traveler alone; common practice, no source.
"""

JOINTS = {
    "gallery_plugs": (), "cam_bearings_and_cam": ("cam_thrust_plate",), "main_and_crank": ("main", "main_side"),
    "rings_pistons_rods": ("rod",), "timing_set": ("cam_sprocket",), "oil_pump_pickup": ("oil_pump",),
    "front_cover": ("timing_cover", "water_pump"), "oil_pan": ("oil_pan",), "damper": ("damper",), "head_torque": ("head",),
    "lifters": ("lifter_guide",), "rockers": ("rocker", "rocker_intake", "rocker_exhaust"),
    "valley_tray_and_intake": ("valley_cover", "intake_manifold", "thermostat_housing", "distributor_clamp"),
    "flywheel": ("flywheel", "flexplate", "bellhousing", "starter"), "exhaust_and_plugs": ("exhaust_manifold",),
    "covers": ("valve_cover",), "inspect_castings": ("engine_stand",), "sign_off": ("engine_hoist",),
}

# Words as seen from the build. A step on its own takes them; those of build_sequence.SHUT_IN_BY come with the step they are shut in by.
MEASURED = {
    "machine_block": ("block_bore",),
    "machine_heads": ("intake_guide_stem_clearance", "exhaust_guide_stem_clearance", "intake_seat_insert_interference",
                      "exhaust_seat_insert_interference", "head_chamber_volume"),
    "measure_deck_height": ("block_deck_height",),
    "spring_bench_test": ("intake_spring_seat_load", "intake_spring_open_load", "exhaust_spring_seat_load", "exhaust_spring_open_load"),
    "check_piston_valve": ("intake_piston_gap", "exhaust_piston_gap", "quench_gap"),
    "check_pushrod_geometry": ("pushrod_length",),
    "cam_bearings_and_cam": ("camshaft_end_play", "cam_bearing_clearance"),
    "main_and_crank": ("crank_end_play",),
    "rings_pistons_rods": ("rod_side_clearance",),
    "final_degree": ("timing_set_installed_centerline",),
    "damper": ("damper_interference",),
    "lifters": ("lifter_bore_clearance",),
    "valve_adjust": ("lifter_preload", "intake_lash_hot", "exhaust_lash_hot"),
    "heads_assembled": ("intake_spring_installed_height", "exhaust_spring_installed_height", "intake_retainer_seal_gap_open",
                        "exhaust_retainer_seal_gap_open"),
    "prime": ("oil_pressure_cold",),
    "first_fire": ("oil_pressure_hot", "oil_pressure_idle"),
}

# Boxes that are printed even where the spec has no plan yet: the engine should not be closed without these numbers.
ALWAYS = frozenset((
    "block_bore", "block_deck_height", "main_bearing_clearance", "rod_bearing_clearance", "piston_wall_clearance", "top_ring_end_gap",
    "second_ring_end_gap", "crank_end_play", "rod_side_clearance", "intake_spring_installed_height", "exhaust_spring_installed_height",
    "intake_piston_gap", "exhaust_piston_gap", "timing_set_installed_centerline", "pushrod_length"))

ORIENTATION = {
    "rings_pistons_rods": ("rod_chamfer_faces", "piston_mark_faces", "top_ring_face", "second_ring_face"),
    "main_and_crank": ("main_bearing_caps_face",),
    "rear_seal": ("rear_main_seal_lip_faces",),
    "front_cover": ("front_seal_lip_faces",),
}

PRODUCTS = {
    "core_plugs": ("core_plug_product",),
    "exhaust_and_plugs": ("spark_plug_product", "spark_plug_torque", "spark_plug_gap"),
    "valley_tray_and_intake": ("end_rail_filled_with", "end_rail_bead"),
    "wipe_faces": ("assembly_faces_cleaned_with",),
    "fill_oil_filter": ("oil_grade", "oil_base", "oil_pan_capacity"),
}

# Surfaces of assembly.lubricants by the step that coats them.
SURFACES = {
    "main_and_crank": ("bearing_face", "bearing_back"), "rings_pistons_rods": ("cylinder_wall", "piston_rings", "piston_skirt"),
    "cam_bearings_and_cam": ("flat_lobe",), "lifters": ("flat_lifter_foot", "roller_lifter"), "pushrods": ("pushrod_tip",),
    "rockers": ("rocker_tip",), "oil_pump_pickup": ("oil_pump_gears",), "rear_seal": ("seal_lip",), "head_gasket": ("gasket_face",),
}

REMINDERS = {
    "receive_and_count": ("injector-driver-matches-impedance", "blow-through-carburetor-is-prepared"),
    "inspect_castings": ("used-castings-are-crack-tested",),
    "choose_fasteners": ("torque-wrench-is-calibrated",),
    "machine_block": ("link-bar-clears-the-block",),
    "machine_heads": ("seat-insert-goes-in-cold", "beryllium-dust-is-kept-down", "valve-pocket-edges-are-rounded"),
    "spring_bench_test": ("spring-work-has-cautions", "spring-damper-edges-are-smooth"),
    "pre_clean": ("blast-media-is-washed-out",),
    "mock_up_bottom": ("windage-tray-clears-the-crank", "oil-pickup-clears-the-pan", "piston-jets-clear-moving-parts",
                       "deleted-jets-are-plugged"),
    "mock_up_cam": ("dead-center-is-proven", "trigger-offset-is-recorded", "trigger-wheel-sits-on-hub"),
    "check_pushrod_geometry": ("rocker-tip-is-centered-sideways", "rocker-shaft-parts-are-in-order", "lifter-band-stays-fed"),
    "trial_fit_plug_and_cover": ("header-clears-plugs-and-starter", "engine-bay-gaps-are-checked"),
    "chase_threads": ("threads-are-chased-gently", "blind-hole-is-dry"),
    "gallery_plugs": ("gallery-plugs-are-held",),
    "cam_bearings_and_cam": ("cam-bearings-feed-oil", "hidden-plugs-are-checked-first"),
    "main_and_crank": ("thrust-shells-are-seated-first", "crank-passages-are-plugged-and-clean", "journal-polish-follows-rotation",
                       "crank-end-play-is-set"),
    "rings_pistons_rods": ("rings-face-up-and-are-spread", "piston-mark-points-as-instructed", "pin-locks-are-oriented",
                           "rod-bolts-stay-with-their-rods", "rod-bolts-keep-their-length", "support-rail-detent-faces-down",
                           "pin-offset-direction-is-stated", "ring-mass-suits-acceleration"),
    "timing_set": ("drive-gear-mesh-is-checked",),
    "oil_pump_pickup": ("oil-pickup-is-secured",),
    "damper": ("damper-is-pulled-on", "damper-bolt-is-present"),
    "heads_assembled": ("valve-seals-are-fitted-last", "lock-halves-keep-a-gap", "titanium-valve-keeps-its-coating",
                        "titanium-valve-has-suitable-mates"),
    "head_gasket": ("gasket-lies-the-right-way",),
    "head_on": ("drain-backs-are-open",),
    "head_washers_nuts": ("washers-are-counted-in", "textured-washer-faces-the-casting"),
    "lifters": ("mushroom-lifters-go-in-first", "link-bar-side-is-recorded"),
    "rockers": ("net-lash-bolts-wait-for-lifter",),
    "flywheel": ("converter-engages-the-pump",),
    "fill_oil_filter": ("dipstick-reads-the-fill",),
    "pressure_test": ("air-can-leave-the-jacket",),
    "store_or_ship": ("engine-is-shipped-safely",),
    "first_fire": ("first-start-has-two-people", "fuel-work-has-cautions", "flat-tappet-run-in-is-planned", "gas-fuel-has-lockoff",
                   "fuel-system-materials-suit-fuel", "electric-pump-keeps-flow", "rings-are-bedded-under-load"),
    "recheck_after_heat": ("first-heat-is-followed-up", "first-oil-change-is-planned", "sealed-bolt-is-retorqued",
                           "soft-gasket-torque-is-rechecked", "lash-is-reset-hot"),
}

# The usual caution of a step, whatever the spec says of it; the maker's instructions and local codes come first.
CAUTIONS = {
    "inspect_castings": "Castings are heavy and slip: lift with rated gear, block them up, keep hands and feet from under them.",
    "spring_bench_test": "A compressed valve spring can throw its retainer and locks: eye protection, a tool that locks, nobody in line.",
    "heads_assembled": "A compressed valve spring can throw its retainer and locks: eye protection, a tool that locks, nobody in line.",
    "final_wash": "Hot wash and solvents: gloves, eye protection, ventilation, no flame.",
    "chase_threads": "Blow holes out with low pressure, a rag over the hole and eye protection.",
    "main_and_crank": "The crank is heavy: two people or a hoist, fingers clear of the saddles.",
    "head_on": "A head is heavy: two people or a hoist, fingers clear of the deck.",
    "pressure_test": "Pressure stores energy: water rather than air, stay clear of plugs, release before loosening anything.",
    "prime": "Pipes and hoses under oil pressure: eye protection; a drill that catches can break a wrist.",
    "flywheel": "Rate hoist, chains and stand for the load; nobody under a hanging engine or gearbox.",
    "first_fire": "Follow the makers' instructions and local codes: ventilation, extinguisher, a second person, guards on, hands and hair clear.",
    "recheck_after_heat": "Hot metal, coolant and oil scald: let it cool before anything is opened.",
}
