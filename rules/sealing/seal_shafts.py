"""What the rear main seal runs on: finish, hardness, groove, sleeve."""

from buildlint.rulebook import *

SHAFT = """
sealing: {rear_main_seal: {kind: one_piece, shaft_finish: %s, shaft_hardness: %s, shaft_groove: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="{trouble}",
    fix="{remedy}",
    source="DIN 3760 practice: Ra 0.2 to 0.8 um, 45 HRC or more; groove common practice, no source",
    points_at=("rear_main_seal_shaft_finish", "rear_main_seal_shaft_hardness", "rear_main_seal_shaft_groove"),
    conforming=(SHAFT % ("15 uin", "50 HRC", "0 in", ""), SHAFT % ("0.8 um", "45 HRC", "0.001 in", "")),
    nonconforming=(SHAFT % ("1.2 um", "50 HRC", "0 in", "# <-"), SHAFT % ("3 uin", "50 HRC", "0 in", "# <-"),
                   SHAFT % ("15 uin", "40 HRC", "0 in", "# <-"),
                   SHAFT % ("15 uin", "50 HRC", "0.003 in", "# <-")),
)
def seal_shaft_is_smooth_and_hard(
    rear_main_seal_shaft_finish: Length = None, rear_main_seal_shaft_hardness: Hardness = None,
    rear_main_seal_shaft_groove: Length = None,
    rear_main_seal_kind: Choice = None, rear_main_seal_sleeve: Choice = None, seal_surface_speed: Speed = None, *,
    smoothest: Length = q("7.5 uin"), roughest: Length = q("32 uin"), hardest_least: Hardness = q("45 HRC"),
    deepest_groove: Length = q("0.002 in"),
):
    """A rough shaft files the lip off, a polished one runs dry under it, a soft one lets dirt cut a groove.

    Rope seals want a knurl and are not judged. A sleeve takes the place of a worn shaft.
    """
    if rear_main_seal_kind == "rope":
        return not_applicable("a rope seal")
    speed = ""
    verdict = None
    if seal_surface_speed is not None:
        speed = " at {seal_surface_speed}"
    if rear_main_seal_shaft_finish is not None:
        verdict = within(rear_main_seal_shaft_finish, smoothest, roughest).at("rear_main_seal_shaft_finish")
        verdict.saying(f"The seal's lip runs on {{value}}{speed}; " + ("rougher than {limit} holds an oil film."
            if verdict.facts.get("side") == "below" else
                       "smoother than {limit} spares it."),
                       "Have the journal finished between {smoothest:up} and {roughest:down}, without a lead.")
    if (verdict is None or verdict.kind == "pass") and rear_main_seal_shaft_hardness is not None and rear_main_seal_shaft_hardness.unit == "HRC":
        hard = at_least(rear_main_seal_shaft_hardness, hardest_least).at("rear_main_seal_shaft_hardness").saying(
            "The seal's lip runs on a shaft of {value}; {limit} or more keeps its track.",
            "Fit a hardened sleeve, or set the new seal to run beside the old track.")
        verdict = hard if hard.kind == "fail" or verdict is None else verdict
    if (verdict is None or verdict.kind == "pass") and rear_main_seal_shaft_groove is not None and rear_main_seal_sleeve != "fitted":
        groove = at_most(rear_main_seal_shaft_groove, deepest_groove).at("rear_main_seal_shaft_groove").saying(
            "The old lip has cut a groove of {value} into the shaft.",
            "Fit a sleeve, or press the seal deeper so that it runs beside the groove.")
        verdict = groove if groove.kind == "fail" or verdict is None else verdict
    return verdict or not_applicable("the shaft is not measured")


SLEEVE = """
crank: {rear_seal_diameter: 3.200 in}
sealing: {rear_main_seal: {kind: one_piece, sleeve: %s%s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Order the seal for the diameter it runs on: {diameter_to_have}, and see that its lip does not land on the sleeve's edge.",
    source="common practice, no source",
    points_at=("rear_main_seal_made_for_diameter", "rear_main_seal_sleeve"),
    conforming=(SLEEVE % ("none", ", made_for_diameter: 3.200 in", ""), SLEEVE % ("fitted", ", made_for_diameter: 3.220 in", "")),
    nonconforming=(SLEEVE % ("none", ", made_for_diameter: 3.240 in", "# <-"), SLEEVE % ("none", ", made_for_diameter: 3.850 in", "# <-"), SLEEVE % ("fitted", "", "# <-")),
)
def seal_fits_sleeve_diameter(
    rear_main_seal_sleeve: Choice = None, rear_main_seal_made_for_diameter: Length = None, crank_rear_seal_diameter: Length = None,
    *,
    within_size: Length = q("0.25 mm"), sleeve_adds: Length = q("0.5 mm"), other_shaft: Length = q("2 mm"),
):
    """A repair sleeve makes the shaft half a millimeter thicker; the old seal is then too tight and cooks.

    Thin sleeves that keep the old seal exist; write the diameter the seal is made for and it is compared. One that is two
    millimeters off is the seal of another crank.
    """
    if crank_rear_seal_diameter is None or rear_main_seal_sleeve is None and rear_main_seal_made_for_diameter is None:
        return not_applicable("seal or shaft is not described")
    sleeve = rear_main_seal_sleeve == "fitted"
    runs_on = crank_rear_seal_diameter + (sleeve_adds if sleeve else 0.0)
    if rear_main_seal_made_for_diameter is None:
        if not sleeve:
            return not_applicable("no sleeve, and the seal's size is not written")
        return require(False, "warning").telling(trouble="A sleeve is fitted, and nothing is written of the diameter the seal is made for.",
                                      diameter_to_have=Length(runs_on))
    low, high = crank_rear_seal_diameter - within_size, runs_on + within_size
    verdict = within(rear_main_seal_made_for_diameter, warning=(Length(low), Length(high)),
                     error=(Length(low - other_shaft), Length(high + other_shaft)))
    return verdict.telling(diameter_to_have=Length(runs_on),
                           runs_on=Length(runs_on)).saying("The seal is made for {value}, but runs on {runs_on}.")
