"""Oil through the engine before it turns by itself: priming, what it shows, what goes back after it, and the first fill."""

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
                   "lifters: {kind: hydraulic_flat}\noiling: {primed_by: starter}" + MARK, "oiling: {primed_by: starter}" + MARK,
                   (FIRED % ("drill_on_pump_shaft", "2026-05-02")).replace("02}\nassembly", "02}" + MARK + "\nassembly")),
)
def oil_is_primed_before_fire(
    oil_primed_by: Choice = None, oil_primed_on: Date = None, assembly_first_fire_on: Date = None, steps_listed: List = None,
    steps_done: Entries = None, lifter_kind: Choice = None, *, primed_again_after: Time = q("7 days"),
):
    """The first turns decide over bearings and lobes; oil has to be there before them, not on its way.

    Pressure is brought up with a drill on the pump's shaft or from a pressure tank while the crank is turned by hand,
    since each crank position feeds other bearings. Cranking on the starter until the gauge moves wears a flat tappet
    cam before it ever runs, whether the day of the first start is written yet or not. Oil drains back: after a week in
    the stand it is primed again.
    """
    fired = assembly_first_fire_on or (steps_done or {}).get("first_fire")
    late = None not in (fired, oil_primed_on) and oil_primed_on > fired
    if oil_primed_by == "starter" and not late:
        flat = lifter_kind in ("hydraulic_flat", "solid_flat")
        return require(False, "error" if flat else "warning").at("oil_primed_by").saying("{what}", "{how}").telling(
            what=f"The first oil pressure is brought up by cranking on the starter{', on flat tappets' if flat else ''}.",
            how="Prime with a drill on the pump's shaft or from a pressure tank; the lobes then keep their paste for the start.")
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
    if late:
        return require(False).at("oil_primed_on").saying("{what}", "{how}").telling(
            what=f"The oil system was primed on {oil_primed_on}, and the engine fired on {fired}.",
            how="If a date is wrong, mend it; else cut the filter open and look at the bearings.")
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
