"""The first fill and the first springs of a flat cam."""

from buildlint.rulebook import *

FLATS = ("hydraulic_flat", "solid_flat")
RUN_BEFORE = ("reused", "reused_in_place")

OIL = """
lifters: {kind: %s}
oiling:
  break_in: {zinc: %s, phosphorus: %s%s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The first fill carries {value} of {what}; under a flat cam keep {limit}.",
    fix="Fill it with a break-in oil of {zinc_warning_below} zinc or more, and change it after the run-in.",
    source="common practice, no source; trade figures run from 1000 to 2400 ppm",
    when={"lifter_kind": FLATS},
    points_at=("oil_break_in_zinc", "oil_break_in_phosphorus"),
    conforming=(OIL % ("solid_flat", "1400 ppm", "1200 ppm", "", ""), OIL % ("hydraulic_flat", "1200 ppm", "1100 ppm", "", ""),
                OIL % ("hydraulic_roller", "800 ppm", "700 ppm", "", "")),
    nonconforming=(OIL % ("solid_flat", "800 ppm", "850 ppm", "", "# <-"), OIL % ("hydraulic_flat", "1100 ppm", "1000 ppm", "", "# <-"),
                   OIL % ("hydraulic_flat", "1200 ppm", "800 ppm", "", "# <-"), OIL % ("solid_flat", "2600 ppm", "2300 ppm", ", additive: fitted", "# <-"),
                   OIL % ("solid_flat", "1400 ppm", "1200 ppm", ", base: synthetic", "# <-")),
)
def break_in_oil_protects_flat_tappets(
    lifter_kind: Choice, oil_break_in_zinc: Fraction = None, oil_break_in_phosphorus: Fraction = None, oil_break_in_base: Choice = None,
    oil_break_in_additive: Choice = None, camshaft_condition: Choice = None, *,
    zinc_error_below: Fraction = q("1000 ppm", "fraction"), zinc_warning_below: Fraction = q("1200 ppm", "fraction"),
    phosphorus_error_up_to: Fraction = q("800 ppm", "fraction"), too_much_above: Fraction = q("2500 ppm", "fraction"),
):
    """A new flat lobe has no hard skin yet; the zinc and phosphorus of the first fill are all that keeps foot and lobe apart.

    Current passenger-car oils hold phosphorus at 800 ppm or less. Trade figures scatter; 1000 ppm zinc is the floor and
    1200 the usual least. More is not better: past 2500 ppm, with an additive on top, it corrodes. A synthetic base does
    no harm by itself; the additive protects, so it is a note. A cam that has run in has its skin.
    """
    if camshaft_condition in RUN_BEFORE:
        return not_applicable("the cam has run in before")
    zinc, phosphorus = oil_break_in_zinc, oil_break_in_phosphorus
    if zinc is None and phosphorus is None:
        return lacking("oil_break_in_zinc")
    if zinc is not None:
        verdict = at_least(zinc, error=zinc_error_below, warning=zinc_warning_below).telling(what="zinc").at("oil_break_in_zinc")
        if verdict.level == "error":
            return verdict
    else:
        verdict = passes()
    if phosphorus is not None and phosphorus <= phosphorus_error_up_to * (1 + 1e-9):
        low = require(False, "error").telling(what="phosphorus").at("oil_break_in_phosphorus").saying(
            "The first fill carries {value} of phosphorus; under a flat cam it needs more than {limit}.",
            "Fill it with a break-in oil of more than {limit} phosphorus and {zinc_warning_below} zinc, and change it after the run-in.")
        low.value, low.limit = phosphorus, phosphorus_error_up_to
        return low
    if verdict.kind == "fail":
        return verdict
    if zinc is not None and zinc > too_much_above * (1 + 1e-9) and oil_break_in_additive == "fitted":
        return at_most(zinc, note=too_much_above).telling(what="zinc").saying(
            "The oil has {value} of zinc, and an additive is poured in besides; past {limit} it corrodes.",
            "Leave the additive out: this oil has what the cam needs.")
    if oil_break_in_base == "synthetic":
        return require(False, "note").at("oil_break_in_base").saying(
            "The first fill is synthetic; its additives suit the flat cam, but rings may take longer to bed.",
            "A mineral break-in oil does for rings and cam together.")
    return passes()


LOAD = """
lifters: {kind: %s}
camshaft: {%s}  %s
intake: {spring: {open_load: %s}}
exhaust: {spring: {open_load: %s}}
"""


@rule(
    scope="side",
    level="warning",
    due="assembly",
    says="The flat cam is run in against {value} open; keep {limit}.",
    fix="Run it in on the outer springs alone or on rockers of a lower ratio, under {limit} open, and write break_in_open_load.",
    source="common practice, no source; shops stop at 220 to 336 lbf",
    caution="Changing springs on a built engine stores energy: hold the valves with air or a cord, use the right tool, and follow its "
            "maker.",
    when={"lifter_kind": FLATS},
    points_at=("camshaft_break_in_open_load", "spring_open_load"),
    conforming=(LOAD % ("hydraulic_flat", "core: cast_iron", "", "290 lbf", "295 lbf"), LOAD % ("solid_flat", "break_in_open_load: 230 lbf", "", "360 lbf", "360 lbf"),
                LOAD % ("hydraulic_roller", "core: billet_steel", "", "390 lbf", "390 lbf")),
    nonconforming=(LOAD % ("solid_flat", "break_in_open_load: 310 lbf", "# <-", "360 lbf", "360 lbf"),
                   (LOAD % ("solid_flat", "core: cast_iron", "", "360 lbf", "360 lbf")).replace("open_load: 360 lbf}}", "open_load: 360 lbf}}  # <-")),
)
def break_in_spring_load_is_light(
    spring_open_load: Force = None, camshaft_break_in_open_load: Force = None, camshaft_condition: Choice = None, *,
    most: Force = q("300 lbf"),
):
    """Foot and lobe polish each other in the first minutes; under full race springs they weld instead.

    Shops stop at 220, at 250, at 336 lbf. Flat cams of 280 to 300 lbf open are run in as they stand, so the line is
    drawn there.
    """
    if camshaft_condition in RUN_BEFORE:
        return not_applicable("the cam has run in before")
    load = spring_open_load if camshaft_break_in_open_load is None else camshaft_break_in_open_load
    return lacking("spring_open_load") if load is None else at_most(load, most)
