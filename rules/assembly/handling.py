"""Work that can hurt somebody by weight or by a spring: cautions for the step, and numbers where there are any."""

from math import ceil

from buildlint.rulebook import *

SPRING = """
intake: {spring: {seat_load: 150 lbf, rate: 450 lbf/in}}
assembly:
  steps:
    - {step: %s}
"""


@rule(
    scope="step",
    level="reminder",
    due="assembly",
    says="Springs are worked on under load{energy}: eye protection on, the tool locked, nobody in line with the retainer.",
    fix="Check the tool's feet and latch before every valve, tap the retainer loose before pressing, keep fingers out of the coils; then sign.",
    source="physics for the energy; common practice, no source",
    caution="A compressed valve spring throws its retainer and locks like a shot. Wear eye protection, use a tool that locks, never stand over "
            "it or leave it compressed, and follow the tool maker's instructions.",
    when={"step": ("spring_bench_test", "heads_assembled")},
    points_at=("step",),
    conforming=(SPRING % "heads_assembled", SPRING % "spring_bench_test"),
)
def spring_work_has_cautions(step: Choice, intake_spring_energy_in_tool: Energy = None, exhaust_spring_energy_in_tool: Energy = None):
    """Ten joules drive a retainer across the shop; every valve of the engine holds as much in the tool.

    The energy is that of the stiffer side, pressed a usual 0.30 in beyond its seat for the locks to go in.
    """
    energies = [energy for energy in (intake_spring_energy_in_tool, exhaust_spring_energy_in_tool) if energy is not None]
    return review().telling(energy=f", about {max(energies):.2g} J in each" if energies else "")


STAND = "engine: {lifted_mass: 260 kg}\nassembly: {%s}%s\n"
MARK = "  # <-"


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The {what} is rated for {value}; an engine of {lifted_mass} wants {limit}.",
    fix="Use one rated for {limit} or more, and keep the engine's weight low while it turns or hangs.",
    source="common practice, no source; local codes for lifting gear come first",
    caution="Never work under a hanging engine or rely on a hydraulic jack alone; keep feet and hands clear while it turns on the stand. Follow "
            "the maker's instructions for stand and hoist, and local codes.",
    when={"lifted_mass": given},
    permits=False,
    points_at=("assembly_stand_rating", "assembly_hoist_rating"),
    conforming=(STAND % ("stand_rating: 325 kg", ""), STAND % ("stand_rating: 450 kg, hoist_rating: 1000 kg", "")),
    nonconforming=(STAND % ("stand_rating: 320 kg", MARK), STAND % ("hoist_rating: 250 kg", MARK)),
)
def stand_carries_the_engine(
    lifted_mass: Mass, assembly_stand_rating: Mass = None, assembly_hoist_rating: Mass = None, *, reserve: Ratio = q("1.25", "ratio"),
):
    """A stand's rating is for an engine that stands still; turning it, pulling on a bolt and a rolling caster add to it.

    The mass is what hangs there, dressed as it is lifted. Neither rating written means nothing to compare.
    """
    rated = [(value / lifted_mass, what, value, word) for what, value, word in (
        ("stand", assembly_stand_rating, "assembly_stand_rating"), ("hoist", assembly_hoist_rating, "assembly_hoist_rating")) if value is not None]
    if not rated:
        return not_applicable("neither stand nor hoist is written")
    _, what, value, word = min(rated)
    return at_least(value, Mass(reserve * lifted_mass)).at(word).telling(what=what)


BOLTS = """
joints:
  engine_hoist: {kind: bolt, thread: %s, strength_class: %s, engagement_length: %s, hole: {material: %s}}%s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The bolts that carry the engine are of a weak class, or hold by too few turns.",
    fix="Use ISO 8.8 or SAE grade 5 at least, engaged one and a half diameters in iron and two in aluminum.",
    source="common practice, no source; ISO 898-1 and SAE J429 for the classes; local codes for lifting gear come first",
    caution="Lift from two points with a chain or plate made for it, bolts drawn up so that the eye cannot bend them, and nobody underneath. Follow "
            "the maker's instructions and local codes.",
    when={"joint_name": ("engine_hoist", "engine_stand")},
    permits=False,
    points_at=("strength_class", "engagement_length"),
    conforming=(BOLTS % ("3/8-16", "sae_grade_8", "0.60 in", "cast_iron", ""), BOLTS % ("M10x1.5", "iso_8_8", "20 mm", "aluminum_cast", "")),
    nonconforming=(BOLTS % ("3/8-16", "sae_grade_2", "0.60 in", "cast_iron", MARK), BOLTS % ("3/8-16", "sae_grade_8", "0.50 in", "cast_iron", MARK),
                   BOLTS % ("M10x1.5", "iso_8_8", "16 mm", "aluminum_cast", MARK), """
        engine: {lifted_mass: 260 kg}
        assembly: {stand_overhang: 350 mm, stand_bolt_spacing: 150 mm}
        joints:
          engine_stand: {kind: bolt, thread: M6x1, strength_class: iso_8_8}  # <-
        """),
)
def hoist_bolts_are_strong_enough(
    joint_name: Choice, strength_class: Choice, engagement_ratio: Ratio = None, hole_material: Choice = None, diameter: Length = None,
    stand_bolt_load: Force = None, proof_load: Force = None, *, weak_classes: tuple = ("sae_grade_2", "stainless_70", "heat_resisting"),
    turns_in_iron: Ratio = q("1.5", "ratio"), turns_in_aluminum: Ratio = q("2", "ratio"), least_reserve: Ratio = q("4", "ratio"),
):
    """The bolts that carry the engine are the ones taken from the coffee can, three turns deep.

    On a stand the two upper bolts hold the overhang alone; at least four times their pull is asked of their proof
    load. Short engagement strips without a sound.
    """
    place = joint_name.replace("_", " ")
    if strength_class in weak_classes:
        return require(False).at("strength_class").saying("{what}", "{how}").telling(
            what=f"The bolts of the {place} are {strength_class.replace('_', ' ')}.", how="Use ISO 8.8 or SAE grade 5 at least.")
    soft = hole_material is not None and hole_material.startswith(("aluminum", "magnesium"))
    wanted = turns_in_aluminum if soft else turns_in_iron
    if engagement_ratio is not None and hole_material is not None and engagement_ratio < wanted * (1 - 1e-9):
        length = f" ({ceil(wanted * diameter * 1000 - 1e-6):.0f} mm)" if diameter is not None else ""
        verdict = at_least(engagement_ratio, wanted).at("engagement_length")
        return verdict.saying("{what}", "{how}").telling(what=f"The bolts of the {place} are {engagement_ratio:.2g} diameters deep in {hole_material.replace('_', ' ')}.",
                               how=f"Take bolts that engage {wanted:.2g} diameters{length}, without bottoming.")
    if joint_name == "engine_stand" and stand_bolt_load is not None and proof_load is not None:
        return at_least(proof_load, Force(least_reserve * stand_bolt_load)).at("thread").saying("{what}", "{how}").telling(
            what=f"Each upper bolt of the stand is pulled with {stand_bolt_load:.0f} N; its proof load is only {proof_load:.0f} N.",
            how="Use larger bolts, or bring the engine closer to the plate.")
    return passes()
