"""Metals and coatings of fasteners: hydrogen in strong steel, and metals that eat each other."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, ELECTROPLATED, EMBRITTLING, NEARLY_EMBRITTLING
from buildlint.tables.joint_metals import ANODIC_INDEX

PLATED = """
build: {stage: ordering}
joints:
  head: {kind: stud, strength_class: %s, coating: %s%s}  %s
"""


def _strong(strength_class, hardness):
    """Whether steel is so hard that hydrogen breaks it ("yes"), nearly so ("nearly") or not ("no")."""
    if hardness is not None and hardness.unit in ("HV", "HRC"):
        high, near = {"HV": (390, 360), "HRC": (40, 37)}[hardness.unit]
        return "yes" if hardness > high else "nearly" if hardness >= near else "no"
    return "yes" if strength_class in EMBRITTLING else "nearly" if strength_class in NEARLY_EMBRITTLING else "no"


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{strength} fasteners are plated with {plating}, and {baked}.",
    fix="Take them black oxide, phosphate or zinc flake, or get the maker's certificate of baking and write plating_baked: yes.",
    source="ISO 4042:2018, section 4.4",
    when={"coating": given},
    points_at=("coating",),
    conforming=(PLATED % ("iso_12_9", "black_oxide", "", ""), PLATED % ("190_ksi", "cadmium", ", plating_baked: yes", ""),
                PLATED % ("iso_8_8", "zinc_electroplated", "", ""),
                PLATED % ("iso_10_9", "zinc_electroplated", ", plating_baked: yes", "")),
    nonconforming=(PLATED % ("iso_12_9", "zinc_electroplated", ", plating_baked: no", "# <-"),
                   PLATED % ("190_ksi", "cadmium", "", "# <-"),
                   PLATED % ("iso_10_9", "zinc_electroplated", "", "# <-")),
)
def plated_strong_bolts_are_baked(
    coating: Choice, joint_name: Choice, strength_class: Choice = None, hardness: Hardness = None, plating_baked: YesNo = None,
):
    """Electroplating puts hydrogen into hard steel; the bolt breaks by itself, days after it was torqued.

    Above 390 HV the standard wants baking, between 360 and 390 HV a verified process. Zinc flake brings no hydrogen.
    """
    if coating not in ELECTROPLATED:
        return not_applicable("not electroplated")
    strong = _strong(strength_class, hardness)
    facts = {"strength": (strength_class or "hard").replace("_", " "), "plating": coating.removesuffix("_electroplated"),
             "baked": "were not baked" if plating_baked is False else "no baking is written"}
    if strong == "no" or plating_baked:
        return passes()
    if strong == "nearly":
        return require(False, "note").telling(**facts)
    if plating_baked is None:
        verdict = wanting("plating_baked")
    else:
        verdict = require(False)
    return (verdict if joint_name in CRITICAL_JOINTS else verdict.within_level("warning")).telling(**facts)


ACID = """
joints:
  rod: {kind: cap_screw, strength_class: %s, cleaned_with: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{strength_class} fasteners were cleaned with acid.",
    fix="Replace them. Clean strong fasteners with solvent and a soft brush, and oil them against rust.",
    source="ISO 4042:2018 on hydrogen embrittlement; no acid on high-strength fasteners: common practice, no source",
    when={"cleaned_with": given},
    points_at=("cleaned_with",),
    conforming=(ACID % ("220_ksi", "solvent", ""), ACID % ("sae_grade_5", "acid", "")),
    nonconforming=(ACID % ("220_ksi", "acid", "# <-"), ACID % ("iso_10_9", "acid", "# <-")),
    permits=False,
)
def strong_bolts_avoid_acid(cleaned_with: Choice, strength_class: Choice = None, hardness: Hardness = None):
    """Rust remover and pickling acid feed hydrogen to hard steel just as plating does, without anybody noticing."""
    strong = _strong(strength_class, hardness)
    if strong == "no" and strength_class is not None:
        return not_applicable("not a strong fastener")
    verdict = require(cleaned_with != "acid")
    return verdict.within_level("warning") if strong == "no" else verdict


WET = """
joints:
  %s: {kind: bolt, metal: %s, hole: {material: %s}, environment: %s, thread_product: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="{fastener} in {casting} differ by {value} volts on the anodic scale, with nothing between them; {limit} is what {place} allows.",
    fix="Put sealant or anti-seize on the thread as a barrier, or take a fastener nearer to the casting's metal.",
    source="anodic index and its limits by environment: several agreeing tables after MIL-STD-889",
    when={"metal": given},
    points_at=("metal",),
    conforming=(WET % ("thermostat_housing", "steel", "aluminum_cast", "normal", "none", ""),
                WET % ("thermostat_housing", "stainless", "aluminum_cast", "wet", "ptfe_paste", ""),
                WET % ("drain_plugs", "brass", "cast_iron", "salt", "none", ""),
                WET % ("exhaust_manifold", "stainless", "cast_iron", "normal", "none", ""),
                WET % ("thermostat_housing", "stainless", "aluminum_cast", "dry", "none", "")),
    nonconforming=(WET % ("thermostat_housing", "stainless", "aluminum_cast", "normal", "none", "# <-"),
                   WET % ("thermostat_housing", "steel", "magnesium", "wet", "none", "# <-")),
)
def wetted_metals_suit_each_other(
    metal: Choice, hole_material: Choice = None, clamped_material: Choice = None, environment: Choice = None,
    thread_product: Choice = None,
    lubricant: Choice = None, hole_opens_into: Choice = None, joint_name: Choice = None, *,
    wet: Ratio = q("0.15", "ratio"), normal: Ratio = q("0.25", "ratio"), dry: Ratio = q("0.50", "ratio"),
):
    """Two metals far apart on the anodic scale make a battery where they are wet, and the softer one is eaten.

    Stainless in aluminum galls besides. Threaded brass or bronze plugs in iron are the right plugs for salt water and
    pass; exhaust fasteners are dry unless their environment is written as wet.
    """
    casting = hole_material or clamped_material
    if joint_name == "exhaust_manifold" and environment in (None, "dry", "normal"):
        return not_applicable("too hot to stay wet")
    if metal not in ANODIC_INDEX or casting not in ANODIC_INDEX:
        return not_applicable("one of the metals is not written")
    if metal in ("brass", "bronze") and casting.endswith("iron"):
        return passes()
    if thread_product not in (None, "none") or lubricant == "anti_seize":
        return passes()
    if hole_opens_into in ("coolant", "oil_gallery", "lifter_valley", "intake_port"):
        return not_applicable("the sealant that the open hole wants keeps the two apart")
    limit, place = {"wet": (wet, "a wet place"), "salt": (wet, "a salty place"), "dry": (dry, "a dry place")}.get(environment,
        (normal, "an ordinary place"))
    gap = abs(ANODIC_INDEX[metal] - ANODIC_INDEX[casting])
    return at_most(Ratio(gap), limit).telling(fastener=metal.replace("_", " ").capitalize(), casting=casting.replace("_", " "),
                                              place=place)
