"""Fasteners in aluminum and in thread inserts: no air tools, and exhaust studs that stay where they are."""

from buildlint.rulebook import *
from buildlint.tables.joint_metals import SOFT

GUN = """
joints:
  %s: {kind: bolt, tightening: %s, hole: {material: %s, repair: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The {joint_name} fasteners are to be run in with {tool} into {metal}.",
    fix="Start them by hand and tighten with a torque wrench: write tightening: torque.",
    source="common practice, no source",
    when={"tightening": given},
    points_at=("tightening",),
    conforming=(GUN % ("valve_cover", "torque", "aluminum_356_t6", "none", ""),
                GUN % ("starter", "power_driver", "cast_iron", "none", "")),
    nonconforming=(GUN % ("valve_cover", "power_driver", "aluminum_356_t6", "none", "# <-"),
                   GUN % ("water_pump", "impact", "cast_iron", "wire_insert", "# <-")),
    edit=("decision", "tightening", "torque"),
)
def soft_threads_see_no_air_tool(tightening: Choice, hole_material: Choice = None, hole_repair: Choice = None,
                                 joint_name: Choice = None):
    """An air tool does not feel a cross-threaded start; in aluminum or in a thread insert it makes a new, wrong thread."""
    inserted = hole_repair in ("wire_insert", "solid_insert")
    if hole_material not in SOFT and not inserted:
        return not_applicable("not a soft thread")
    tool = {"power_driver": "a power driver", "impact": "an impact gun"}.get(tightening, "")
    metal = "a thread insert" if inserted else (hole_material or "").replace("_", " ")
    return require(tightening not in ("power_driver", "impact")).telling(tool=tool, metal=metal)


EXHAUST = """
joints:
  exhaust_manifold: {kind: stud, hole: {material: aluminum_356_t6%s}%s}  %s
"""


@rule(
    scope="joint",
    level="note",
    due="assembly",
    says="Exhaust studs in an aluminum head {trouble}.",
    fix="Set the studs with anti-seize, use all-metal or copper-coated nuts, and write whether the holes have inserts (hole repair).",
    source="common practice, no source",
    when={"joint_name": ("exhaust_manifold",)},
    points_at=("kind", "thread_product", "nut_kind"),
    conforming=(EXHAUST % (", repair: none", ", thread_product: anti_seize, nut: {kind: all_metal_lock}", ""),
                "joints: {exhaust_manifold: {kind: bolt, hole: {material: cast_iron}}}"),
    nonconforming=(EXHAUST % ("", ", nut: {kind: all_metal_lock}", "# <-"),
                   EXHAUST % (", repair: none", ", thread_product: anti_seize, nut: {kind: hex}", "# <-")),
)
def exhaust_studs_stay_in_head(
    joint_name: Choice, kind: Choice = None, hole_material: Choice = None, thread_product: Choice = None, lubricant: Choice = None,
    nut_kind: Choice = None, hole_repair: Choice = None,
):
    """A nut that seizes in the heat brings the stud out, and the stud brings the aluminum thread along.

    With anti-seize in the head and a nut that does not rust on, the right one lets go.
    """
    if kind != "stud" or hole_material not in SOFT:
        return not_applicable("no stud in aluminum")
    trouble = []
    if thread_product != "anti_seize" and lubricant != "anti_seize":
        trouble.append("have no anti-seize written")
    if nut_kind not in (None, "all_metal_lock", "copper_coated"):
        trouble.append(f"carry {nut_kind.replace('_', ' ')} nuts")
    if hole_repair is None and trouble:
        trouble.append("do not say whether the holes have inserts")
    return require(not trouble).telling(trouble=" and ".join(trouble))
