"""The first start and what follows it: people, fuel, bedding, the first oil, the first heat."""

from buildlint.rulebook import *

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
