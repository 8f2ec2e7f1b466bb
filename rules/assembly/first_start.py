"""Oil through the engine before it turns by itself, and the first start: oil, fuel and people."""

from buildlint.rulebook import *

FIRED = """
oiling: {primed_by: %s, primed_on: %s}
assembly: {first_fire_on: 2026-05-20}
"""
MARK = "  # <-"


@rule(
    scope="build",
    level="error",
    due="handover",
    says="The engine is fired without its oil brought up before.",
    fix="Prime it with a drill on the pump's shaft or from a pressure tank until oil shows at every rocker, then fire it.",
    source="common practice, no source",
    points_at=("oil_primed_by", "oil_primed_on", "assembly_first_fire_on"),
    conforming=(FIRED % ("drill_on_pump_shaft", "2026-05-19"), FIRED % ("pressure_tank", "2026-05-20"), """
        oiling: {primed_by: none}
        assembly: {storage: {from: 2026-05-20}}
        """),
    nonconforming=("oiling: {primed_by: none}  # <-\nassembly: {first_fire_on: 2026-05-20}\n",
                   (FIRED % ("drill_on_pump_shaft", "2026-05-21")).replace("2026-05-21}", "2026-05-21}" + MARK),
                   (FIRED % ("starter", "2026-05-20")).replace("20}\nassembly", "20}" + MARK + "\nassembly"),
                   (FIRED % ("drill_on_pump_shaft", "2026-05-02")).replace("02}\nassembly", "02}" + MARK + "\nassembly")),
)
def oil_is_primed_before_fire(
    oil_primed_by: Choice = None, oil_primed_on: Date = None, assembly_first_fire_on: Date = None, steps_listed: List = None,
    steps_done: Entries = None, lifter_kind: Choice = None, *, primed_again_after: Time = q("7 days"),
):
    """The first turns decide over bearings and lobes; oil has to be there before them, not on its way.

    Pressure is brought up with a drill on the pump's shaft or from a pressure tank while the crank is turned by hand,
    since each crank position feeds other bearings. Cranking on the starter until the gauge moves wears a flat tappet
    cam before it ever runs. Oil drains back: after a week in the stand it is primed again.
    """
    fired = assembly_first_fire_on or (steps_done or {}).get("first_fire")
    if fired is None and "first_fire" not in (steps_listed or ()):
        return not_applicable("no first start is foreseen")
    if oil_primed_by == "none":
        return require(False).at("oil_primed_by").saying("{what}", "{how}").telling(
            what="The engine is to be fired without priming its oil system.",
            how="Prime it until oil shows at every rocker, the crank turned between, then fire it.")
    if fired is None:
        return passes()
    if oil_primed_by is None and oil_primed_on is None:
        return wanting("oil_primed_by", "oil_primed_on").at("assembly_first_fire_on").saying("{what}", "{how}").telling(
            what=f"The engine was fired on {fired}, and nothing says that its oil system was primed.",
            how="Write how and on which day; if nobody did, look at pressure, filter and bearings before it runs again.")
    if oil_primed_on is not None and oil_primed_on > fired:
        return require(False).at("oil_primed_on").saying("{what}", "{how}").telling(
            what=f"The oil system was primed on {oil_primed_on}, and the engine fired on {fired}.",
            how="If a date is wrong, mend it; else cut the filter open and look at the bearings.")
    if oil_primed_by == "starter":
        flat = lifter_kind in ("hydraulic_flat", "solid_flat")
        return require(False, "error" if flat else "warning").at("oil_primed_by").saying("{what}", "{how}").telling(
            what="Oil pressure was brought up by cranking on the starter" + (", on flat tappets." if flat else "."),
            how="Prime with a drill on the pump's shaft or from a pressure tank; the lobes then keep their paste for the start.")
    if oil_primed_on is not None and (fired - oil_primed_on).days * 86400 > primed_again_after:
        return require(False, "note").at("oil_primed_on").saying("{what}", "{how}").telling(
            what=f"{(fired - oil_primed_on).days} days lie between priming and the first start.", how="Prime once more before it is fired.")
    return passes()


SEEN = "engine: {cylinders: 8}\noiling: {primed_by: drill_on_pump_shaft, rockers_seen_oiled: %s}  %s\n"


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="Oil was seen at {oil_rockers_seen_oiled} of {limit} rockers.",
    fix="Turn the crank a quarter turn at a time while priming, until every rocker is wet; else look for a blocked pushrod, lifter "
        "or restrictor.",
    source="common practice, no source",
    when={"oil_primed_by": ("drill_on_pump_shaft", "pressure_tank", "starter")},
    conforming=SEEN % ("16", ""),
    nonconforming=SEEN % ("14", "# <-"),
)
def oil_shows_at_every_rocker(oil_rockers_seen_oiled: Count, rockers_needed: Count):
    """The rocker is the last place the oil reaches; one that stays dry tells of what cannot be seen before it.

    With spring oilers or a restricted top end it may take minutes, and it is waited for.
    """
    return at_least(Count(oil_rockers_seen_oiled), Count(rockers_needed))


REFITTED = """
build: {stage: handover}
oiling: {primed_by: drill_on_pump_shaft, primed_on: 2026-05-19, pump: {drive: distributor_gear%s}}%s
assembly: {first_fire_on: 2026-05-20}
"""


@rule(
    scope="build",
    level="error",
    due="handover",
    says="The pump was primed by its shaft, and its drive is not back before the first start.",
    fix="Put shaft and distributor back, engaged in the pump and timed, and write oiling.pump.drive_refitted_on; then fire it.",
    source="common practice, no source",
    when={"oil_primed_by": ("drill_on_pump_shaft",), "oil_pump_drive": ("distributor_gear", "cam_stub_shaft")},
    points_at=("oil_primed_by",),
    conforming=REFITTED % (", drive_refitted_on: 2026-05-19", ""),
    nonconforming=(REFITTED % ("", MARK), REFITTED % (", drive_refitted_on: 2026-05-18", MARK), REFITTED % (", drive_refitted_on: 2026-05-21", MARK)),
)
def pump_drive_returns_after_priming(
    oil_primed_by: Choice, oil_pump_drive_refitted_on: Date = None, oil_primed_on: Date = None, assembly_first_fire_on: Date = None,
):
    """The drill turns the pump by its own spindle; left without its drive, the engine starts with no oil at all.

    A pump driven from the crank or by a belt has nothing to put back.
    """
    back = oil_pump_drive_refitted_on
    if back is None:
        return wanting("oil_pump_drive_refitted_on").at("oil_primed_by").saying("{what}").telling(
            what="The pump was primed by its shaft, and nothing says that its drive and the distributor are back.")
    if oil_primed_on is not None and back < oil_primed_on:
        return require(False).at("oil_pump_drive_refitted_on").saying("{what}").telling(
            what=f"The pump's drive went back on {back}, before it was primed on {oil_primed_on}.")
    if assembly_first_fire_on is not None and back > assembly_first_fire_on:
        return require(False).at("oil_pump_drive_refitted_on").saying("{what}").telling(
            what=f"The engine was fired on {assembly_first_fire_on}, and the pump's drive went back on {back}.")
    return passes()


BREAK_IN = """
rings: {top: {face: %s, material: ductile_iron}}
oiling: {break_in: {base: %s, grade: %s}}%s
"""


@rule(
    scope="build",
    level="note",
    due="assembly",
    says="The first fill is {what}; plain iron and moly rings bed sooner on a mineral oil of grade 30.",
    fix="Fill a mineral 10W-30 for the first hours, and the other oil afterwards.",
    source="common practice, no source",
    when={"top_ring_face": ("plain", "plasma_moly")},
    points_at=("oil_break_in_base", "oil_break_in_grade"),
    conforming=(BREAK_IN % ("plasma_moly", "mineral", "10W-30", ""), BREAK_IN % ("nitride", "synthetic", "10W-30", "")),
    nonconforming=(BREAK_IN % ("plasma_moly", "synthetic", "10W-30", MARK), BREAK_IN % ("plain", "mineral", "5W-20", MARK)),
)
def break_in_oil_suits_rings(top_ring_face: Choice, oil_break_in_base: Choice = None, oil_break_in_grade: Choice = None):
    """Rings bed on the crosshatch while it is sharp; an oil that is too slippery or too thin lets them glaze it.

    Opinion is divided, and modern finishes need little; hence a note. The zinc that flat tappets need is another rule.
    """
    thin = oil_break_in_grade is not None and oil_break_in_grade.rsplit("-", 1)[-1].removeprefix("W") in ("16", "20", "8", "12")
    if oil_break_in_base is None and oil_break_in_grade is None:
        return not_applicable("no first fill is written")
    return require(oil_break_in_base != "synthetic" and not thin).telling(
        what=" ".join(part for part in ("synthetic" if oil_break_in_base == "synthetic" else "", oil_break_in_grade or "oil") if part))


PEOPLE = """
build: {stage: handover}
assembly:
  steps:
    - {step: first_fire}
"""


@rule(
    scope="step",
    level="reminder",
    due="handover",
    says="Two people at the first start: one at the switch with an eye on the oil pressure, one at the engine with the extinguisher.",
    fix="Agree on the sign for stop; stop at once without oil pressure within seconds, on fuel, smoke or a new noise; then sign.",
    source="common practice, no source",
    caution="Chock the wheels or clamp the stand, gearbox in neutral, loose clothing and hair tied back, hands and tools away from belts "
            "and fan, exhaust led outdoors. Follow the makers' instructions and local codes; on a dynamometer its own safety rules hold.",
    when={"step": ("first_fire",)},
    points_at=("step",),
    conforming=PEOPLE,
)
def first_start_has_two_people(step: Choice):
    """Whoever watches the timing light cannot watch the gauge, and nobody watches the floor.

    Timing set so that it fires at once, coolant filled, a kill switch in reach, and nobody in line with the fan.
    """
    return review()


@rule(
    scope="step",
    level="reminder",
    due="handover",
    says="Fuel is filled and its lines are pressed before the first start: look for leaks before there is a spark.",
    fix="Battery off while lines are open, pressure up, every joint dry to the hand and the light, then battery on; then sign.",
    source="common practice, no source",
    caution="Gasoline vapor runs along the floor to the nearest flame or heater. Ventilate, keep ignition sources and smoking away, have an "
            "extinguisher for burning liquids at hand, take the pressure off before opening a line, and catch what drips. Methanol burns "
            "without a visible flame. Makers' instructions, local codes and licensed practice come first.",
    when={"step": ("first_fire",)},
    points_at=("step",),
    conforming=PEOPLE,
)
def fuel_work_has_cautions(step: Choice):
    """A drop at a fitting on a cold engine is a fire on a hot one."""
    return review()


AFTER = "build: {stage: handover}\nrings: {top: {face: plasma_moly}}\nassembly: {first_fire_on: 2026-05-20}\n"


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="The rings are bedded under changing load, not at idle; full load, boost and nitrous wait until after the first oil change.",
    fix="Some 20 to 30 minutes of load cycles between a third and two thirds of torque, speed rising and falling; then sign.",
    source="common practice, no source",
    points_at=("top_ring_face", "assembly_first_fire_on"),
    conforming=AFTER,
)
def rings_are_bedded_under_load(top_ring_face: Choice = None, top_ring_end_gap: Length = None, assembly_first_fire_on: Date = None,
                                steps_listed: List = None):
    """Gas pressure behind the rings beds them; an engine that idles itself in polishes its bores instead.

    Asked of a spec that speaks of rings and of a first start.
    """
    if top_ring_face is None and top_ring_end_gap is None:
        return not_applicable("the spec says nothing of rings")
    if assembly_first_fire_on is None and "first_fire" not in (steps_listed or ()):
        return not_applicable("no first start is foreseen")
    return review()


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="The first oil and filter come out after {planned}; the filter is cut open and its pleats looked at.",
    fix="Drain hot, cut the filter, look for bearing metal, sealant and grit, and say on the hand-over sheet when the next is due; then sign.",
    source="common practice, no source",
    caution="Oil from a running engine scalds: gloves and eye protection, and a pan that holds it all.",
    points_at=("oil_break_in_changed_after", "assembly_first_fire_on"),
    conforming="build: {stage: handover}\noiling: {break_in: {changed_after: 1 h}}\nassembly: {first_fire_on: 2026-05-20}\n",
)
def first_oil_change_is_planned(oil_break_in_changed_after: Time = None, assembly_first_fire_on: Date = None, steps_listed: List = None,
                                *, usual: Time = q("1 h")):
    """The first oil carries the paste, the lint and whatever the last wash left; the filter shows what it was.

    Where no time is written, an hour on the dynamometer or the first drive is usual.
    """
    if assembly_first_fire_on is None and "first_fire" not in (steps_listed or ()):
        return not_applicable("no first start is foreseen")
    return review().telling(planned=oil_break_in_changed_after if oil_break_in_changed_after is not None else usual)


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="After the first heat: leaks, lash or preload, retorque where the gasket calls for it, fasteners, springs on two valves, leak-down.",
    fix="Let it cool, go through the list, write what was found under assembly.records; then sign.",
    source="common practice, no source; springs settle by some 7 % in their first heat, from memory",
    points_at=("assembly_first_fire_on",),
    conforming="build: {stage: handover}\nassembly: {first_fire_on: 2026-05-20}\n",
)
def first_heat_is_followed_up(assembly_first_fire_on: Date = None, steps_listed: List = None):
    """Everything that was clamped cold has moved once by now, and moves little afterwards: this is the time to look.

    A multilayer gasket and bolts drawn into yield are not tightened again.
    """
    if assembly_first_fire_on is None and not {"first_fire", "recheck_after_heat"}.intersection(steps_listed or ()):
        return not_applicable("no first start is foreseen")
    return review()
