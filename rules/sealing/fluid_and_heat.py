"""Whether a sealant stands what it is put against."""

from buildlint.mechanics.sealed_places import medium_of, places_of, product_name
from buildlint.rulebook import *
from buildlint.tables.sealants import FACE_SUITS, HEAT_LIMIT, INSIDE_JOINTS, OPENINGS, THREAD_SUITS

HOLE = """
joints:
  %s: {kind: %s, thread_product: %s, hole: {opens_into: %s}}  # <-
"""

SUITS = """
joints:
  intake_manifold: {kind: bolt, count: 12}
sealing:
  sealed_places:
    - {place: %s, product: %s%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="product data sheets' usual ranges, from memory; threadlocker to 149 degC: a published data sheet",
    points_at=("thread_product",),
    conforming=(*((HOLE % row).replace("  # <-", "") for row in (
        ("rocker_intake", "shouldered_stud", "ptfe_paste", "intake_port"),
        ("cover", "bolt", "sealing_threadlocker", "oil_gallery"))),
        SUITS % ("intake_front_left", "silicone", "", "")),
    nonconforming=(*(HOLE % row for row in (
        ("rocker_intake", "shouldered_stud", "silicone", "intake_port"), ("head", "stud", "anti_seize", "coolant"),
        ("cover", "bolt", "gasket_shellac", "oil_gallery"))), """
        joints:
          exhaust_manifold: {kind: stud, thread_product: threadlocker_high, service_temperature: 450 degC}  # <-
        """, SUITS % ("carburetor_base", "silicone", ", medium: gasoline", "# <-"), SUITS % ("intake_front_left", "silicone", ", temperature: 320 degC", "# <-")),
)
def sealant_suits_fluid_and_heat(
    joint_name: Choice, thread_product: Choice = None, hole_opens_into: Choice = None, service_temperature: Temperature = None,
    sealed_places: Entries = None, joints_listed: Entries = None, fuel_oxygen_sensor: Choice = None,
    oxygen_sensor_safe: YesNo = None,
    joint_leads: YesNo = True,
):
    """Fuel dissolves silicone, heat chars it, threadlocker keeps a head stud from ever being torqued again, a lubricant seals nothing.

    Silicone that gives off vapor spoils oxygen sensors; that is a warning where one is fitted.
    """
    asked = False
    if thread_product not in (None, "none"):
        limit = HEAT_LIMIT.get(thread_product)
        if service_temperature is not None and limit is not None:
            asked = True
            if service_temperature > limit:
                return require(False).at("thread_product").telling(hot=service_temperature, bears=limit,
                                                                   product=product_name(thread_product)).saying(
                    "The {joint_name} joint runs at {hot}; {product} bears {bears}.",
                    "Use anti-seize or a dry thread here, and lock it otherwise.")
        if hole_opens_into in ("coolant", "oil_gallery", "crankcase", "lifter_valley",
                               "intake_port") and joint_name not in INSIDE_JOINTS:
            asked = True
            if hole_opens_into not in THREAD_SUITS.get(thread_product, ()):
                wanted = " or ".join(product_name(name) for name, places in THREAD_SUITS.items() if hole_opens_into in places)
                level = "warning" if thread_product == "anti_seize" and hole_opens_into in ("crankcase",
                    "lifter_valley") else "error"
                return require(False, level).at("thread_product").telling(
                    trouble=f"{product_name(thread_product, True)} does not seal a thread into {OPENINGS[hole_opens_into]}.",
                    remedy=f"Use {wanted} instead.")
    for row in places_of(joint_name, joint_leads, sealed_places or (), joints_listed or ()):
        product, place = row.get("product"), _plain(row.get("place") or "a place")
        if product in (None, "none"):
            continue
        asked, line, medium = True, f"sealed_places_{row['number']}", medium_of(row)
        if product in FACE_SUITS and medium not in FACE_SUITS[product]:
            wanted = " or ".join(product_name(name) for name,
                                 fluids in FACE_SUITS.items() if medium in fluids and name in ("silicone", "anaerobic_flange",
                                     "gasket_only"))
            return require(False).at(line).telling(trouble=f"{product_name(product, True)} at {place} does not stand {medium}.",
                                                   remedy=f"Use {wanted} there.")
        limit, hot = HEAT_LIMIT.get(product), row.get("temperature")
        if limit is not None and hot is not None and hot > limit:
            return require(False).at(line).telling(hot=hot, bears=limit, product=product_name(product),
                                                   at_place=place[0].upper() + place[1:]).saying(
                "{at_place} gets {hot} hot; {product} bears {bears}.", "Use a metal or graphite gasket there, without {product}.")
        if product == "silicone" and fuel_oxygen_sensor not in (None, "none") and oxygen_sensor_safe is False:
            return require(False, "warning").at(line).telling(
                trouble=f"The silicone at {place} is not safe for oxygen sensors, and one is fitted.",
                remedy="Use the low-vapor kind.")
    return passes() if asked else not_applicable("no product to judge")


def _plain(name):
    return name.replace("_", " ")
