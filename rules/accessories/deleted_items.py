"""Order lines against the accessories that are fitted, deleted, and driven by the damper that was chosen."""

from buildlint.rulebook import *

ON_THE_BELT = ("alternator", "water_pump", "power_steering", "air_conditioning", "air_pump", "vacuum_pump")
ACCESSORIES = (*ON_THE_BELT, "dry_sump_pump", "supercharger", "idler", "fan")

LINES = """
damper: {underdrive: %s%s}
accessories:
  fitted_accessories: [alternator, water_pump%s]
  deleted_accessories: [%s]
  belt: {laid_out_for: [alternator, water_pump%s]}
order:
  items:
    - {item: %s, quantity: 1}  %s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source",
    when={"item": (*ACCESSORIES, "belt", "damper")},
    points_at=("item",),
    conforming=(LINES % ("0 %", "", ", power_steering", "air_conditioning", ", power_steering", "power_steering", ""),
                LINES % ("25 %", ", drives: [alternator, water_pump]", "", "air_conditioning", "", "damper", ""),
                LINES % ("0 %", "", "", "air_conditioning", "", "belt", "")),
    nonconforming=(LINES % ("0 %", "", "", "air_conditioning", "", "air_conditioning", "# <-"),
                   LINES % ("0 %", "", "", "air_conditioning", ", air_conditioning", "belt", "# <-"),
                   LINES % ("0 %", "", ", power_steering", "", "", "belt", "# <-"),
                   LINES % ("25 %", "", "", "air_pump", "", "air_conditioning", "# <-"),
                   LINES % ("25 %", ", drives: [alternator, water_pump]", ", air_conditioning", "", ", air_conditioning", "damper", "# <-")),
)
def deleted_items_leave_nothing_behind(
    item: Choice, deleted_accessories: List = None, fitted_accessories: List = None, belt_laid_out_for: List = None,
    damper_drives: List = None, damper_underdrive: Fraction = None, ordered_pieces: Entries = None, *, no_groove_from: Fraction = q("0.20", "fraction"),
):
    """What was left off leaves a belt of the wrong length behind, a bracket that fits nothing, and a compressor on a shelf.

    Lines for a deleted accessory are refused, so is a belt laid out for another set than the one that is fitted. A damper that
    underdrives by 20 percent or more mostly comes without the groove for air conditioning: if it does not say what it drives,
    that is a warning, if it does, an error. Condenser, hoses, idle-up and relays go the same way as the compressor.
    """
    deleted, fitted = set(deleted_accessories or ()), set(fitted_accessories or ())
    name = item.replace("_", " ")
    if item in ACCESSORIES and item in deleted:
        return require(False).telling(name=name).saying(
            "The order has a line for {name}, which is deleted from this build.",
            "Take the line out, with its bracket, lines and fittings; or take it out of accessories.deleted_accessories.")
    if item == "belt" and belt_laid_out_for is not None:
        layout = set(belt_laid_out_for)
        extra = sorted(layout & deleted)
        short = sorted((fitted & set(ON_THE_BELT)) - layout)
        if extra or short:
            what = " and ".join([*(f"{part.replace('_', ' ')}, which is deleted" for part in extra)]) if extra else ""
            lack = " and ".join(part.replace("_", " ") for part in short)
            sentence = f"The belt is laid out for {what}." if extra else f"The belt is laid out without {lack}, which is fitted."
            wanted = ", ".join(part.replace("_", " ") for part in sorted((layout - deleted) | set(short)))
            return require(False).telling(sentence=sentence, remedy=f"Order the belt for {wanted}; measure its length round the pulleys that are there.")
        return passes()
    asked = [item] if item in ON_THE_BELT else []
    if item == "damper":  # what has a line of its own is told there
        asked = sorted(fitted & set(ON_THE_BELT) - set(ordered_pieces or ()))
    if damper_drives is not None:
        left_out = [part for part in asked if part not in damper_drives]
        if left_out:
            lack = " and ".join(part.replace("_", " ") for part in left_out)
            return require(False).telling(sentence=f"The damper has no groove for {lack}.",
                                          remedy=f"Take a damper or pulley that drives {lack}, or delete it and take its line off the order.")
        return passes()
    if "air_conditioning" in asked and damper_underdrive is not None and damper_underdrive >= no_groove_from:
        return require(False, "warning").telling(
            sentence=f"The damper underdrives by {float(damper_underdrive) * 100:.0f} percent; such dampers mostly come without a groove for air conditioning.",
            remedy="Look at the damper's sheet and write damper.drives; where it has no groove, take the compressor off the order and delete it.")
    return passes()
