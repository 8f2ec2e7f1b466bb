"""Bolt holes that break into water, oil or a port, and what has to be on their threads."""

from buildlint.rulebook import *

HOLE = """
joints:
  rocker_intake: {kind: %s, thread_product: %s, hole: {opens_into: %s}}  # <-
"""

PLACES = {"coolant": "a water jacket", "oil_gallery": "an oil gallery", "crankcase": "the crankcase", "lifter_valley": "the lifter valley",
          "intake_port": "the intake port", "exhaust_port": "an exhaust port", "combustion_chamber": "the combustion chamber"}


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The hole opens into {place}, and {product_text} on the thread.",
    fix="Put {wanted} on the clean thread{tip}, and use the torque for that product.",
    source="common practice, no source",
    when={"hole_opens_into": ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port")},
    points_at=("thread_product", "hole_opens_into"),
    conforming=tuple((HOLE % row).replace("  # <-", "") for row in (
        ("shouldered_stud", "ptfe_paste", "intake_port"), ("stud", "ptfe_paste", "coolant"), ("bolt", "none", "nothing"))),
    nonconforming=tuple(HOLE % row for row in (
        ("shouldered_stud", "none", "intake_port"), ("stud", "none", "coolant"), ("bolt", "none", "lifter_valley"))),
)
def open_bolt_hole_is_sealed(thread_product: Choice, hole_opens_into: Choice):
    """A thread is a leak path: water into the oil, oil into the port, boost into the cover.

    Ports that were raised until they broke into the rocker bolt holes draw oil down the thread and smoke. Whether
    a hole opens is settled with a wire and a light, not from the catalogue. A product that is there but does not
    suit is another rule's matter.
    """
    wanted = {"intake_port": "a fuel-proof PTFE paste", "coolant": "PTFE paste or an anaerobic sealant"}.get(
        hole_opens_into, "PTFE paste or a sealing threadlocker")
    tip = ", on the bolt's tip" if hole_opens_into == "intake_port" else ""
    return require(thread_product != "none").telling(place=PLACES[hole_opens_into], wanted=wanted, tip=tip,
                                                     product_text="nothing is")


# What each product bears. Fuel and heat of silicone and threadlockers: published data sheets' usual range, from
# memory; the rest common practice, no source.
SUITS = {
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


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{product} does not seal a thread into {place}.",
    fix="Use {wanted} instead.",
    source="product data sheets' usual ranges, from memory; common practice, no source",
    when={"hole_opens_into": ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port")},
    points_at=("thread_product",),
    conforming=tuple((HOLE % row).replace("  # <-", "") for row in (
        ("shouldered_stud", "ptfe_paste", "intake_port"), ("bolt", "sealing_threadlocker", "oil_gallery"))),
    nonconforming=tuple(HOLE % row for row in (
        ("shouldered_stud", "silicone", "intake_port"), ("stud", "anti_seize", "coolant"), ("bolt", "gasket_shellac", "oil_gallery"))),
)
def sealant_suits_fluid_and_heat(thread_product: Choice, hole_opens_into: Choice):
    """Fuel dissolves silicone, threadlocker keeps a head stud from ever being torqued again, and a lubricant seals nothing."""
    if thread_product == "none":
        return not_applicable("nothing is on the thread")
    good = hole_opens_into in SUITS.get(thread_product, ())
    wanted = " or ".join(name.replace("_", " ") for name, places in SUITS.items() if hole_opens_into in places)
    return require(good).telling(product=thread_product.replace("_", " "), place=PLACES[hole_opens_into], wanted=wanted)
