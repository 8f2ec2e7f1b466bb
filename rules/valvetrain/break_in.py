"""The first half hour of a flat cam: the oil, the load, the paste, and a plan for it."""

from buildlint.rulebook import *

FLATS = ("hydraulic_flat", "solid_flat")
RUN_BEFORE = ("reused", "reused_in_place")

RUN_CAUTION = ("A running engine moves, burns and gases: guards on, exhaust led outside, extinguisher and a second person at "
               "hand, and the maker's instructions followed.")

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
    fix="Fill it with a break-in oil of 1200 ppm zinc or more, and change it after the run-in.",
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
            "The first fill carries {value} of phosphorus; under a flat cam it needs more than {limit}.")
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
    return lacking("camshaft_break_in_open_load") if load is None else at_most(load, most)


PASTE = """
lifters: {kind: solid_flat}
camshaft: {break_in_paste: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The flat lobes and feet go in without run-in paste{instead}.",
    fix="Coat every lobe and every foot with the paste the cam came with; oil the lifter's sides only.",
    source="common practice, no source",
    when={"lifter_kind": FLATS},
    points_at=("camshaft_break_in_paste", "assembly_lubricants"),
    conforming=(PASTE % ("fitted", ""), """
        lifters: {kind: solid_flat}
        assembly:
          lubricants:
            - {surface: flat_lobe, product: moly_break_in_paste}
        """),
    nonconforming=(PASTE % ("none", "# <-"), """
        lifters: {kind: hydraulic_flat}
        assembly:
          lubricants:
            - {surface: flat_lobe, product: engine_oil}  # <-
        """),
)
def flat_tappet_lobes_are_pasted(
    lifter_kind: Choice, camshaft_break_in_paste: Choice = None, assembly_lubricants: Entries = None, camshaft_condition: Choice = None,
):
    """Until the splash reaches them the lobes have only what was smeared on; plain oil has run off by then.

    Rollers want oil and no paste.
    """
    if camshaft_condition in RUN_BEFORE:
        return not_applicable("the cam has run in before")
    if camshaft_break_in_paste is not None:
        return require(camshaft_break_in_paste == "fitted").telling(instead="")
    products = [row.get("product") for row in assembly_lubricants or () if row.get("surface") in ("flat_lobe", "flat_lifter_foot")]
    if not products:
        return lacking("camshaft_break_in_paste")
    wrong = [product for product in products if product != "moly_break_in_paste"]
    return require(not wrong).at("assembly_lubricants").telling(instead=f", on {wrong[0].replace('_', ' ')}" if wrong else "")


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Plan the first start: it fires at once, goes straight to {speed} and stays there for {time}, never idling; every lifter is seen to turn.",
    fix="Prime the oil until every rocker has it, set the timing and fill the carburetor so that nothing keeps it cranking; then sign for it.",
    source="common practice, no source; 2000 to 2500 rpm for 20 to 30 minutes in every account",
    caution=RUN_CAUTION,
    points_at=("camshaft_break_in_speed", "camshaft_break_in_time"),
    conforming="""
        lifters: {kind: solid_flat}
        camshaft: {break_in_speed: 2200 rpm, break_in_time: 25 min}
        """,
    nonconforming=("""
        lifters: {kind: hydraulic_flat}
        camshaft: {break_in_speed: 1200 rpm, break_in_time: 25 min}  # <-
        """, """
        lifters: {kind: hydraulic_flat}
        camshaft: {break_in_speed: 2200 rpm, break_in_time: 5 min}  # <-
        """),
)
def flat_tappet_run_in_is_planned(
    intake_lifter_kind: Choice = None, camshaft_break_in_speed: Rpm = None, camshaft_break_in_time: Time = None,
    camshaft_condition: Choice = None, *,
    slowest: Rpm = q("1800 rpm"), fastest: Rpm = q("3000 rpm"), shortest: Time = q("20 min"),
):
    """A flat cam is made or lost in its first minutes: splash oils it only at speed, and idling wipes the lobes.

    The speed is varied all the while. A lifter that does not turn, seen at its pushrod, has a foot that is going: stop
    at once.
    """
    if intake_lifter_kind is None:
        return lacking("lifter_kind")
    if intake_lifter_kind not in FLATS or camshaft_condition in RUN_BEFORE:
        return not_applicable("no flat cam is run in")
    if camshaft_break_in_speed is not None:
        verdict = within(camshaft_break_in_speed, slowest, fastest)
        if verdict.kind == "fail":
            return verdict.at("camshaft_break_in_speed").saying(
                "The run-in is planned at {value}; a flat cam is held at 2000 to 2500 rpm.", "Plan 2000 to 2500 rpm, varied all the while.")
    if camshaft_break_in_time is not None:
        verdict = at_least(camshaft_break_in_time, shortest)
        if verdict.kind == "fail":
            return verdict.at("camshaft_break_in_time").saying(
                "The run-in is planned for {value}; a flat cam takes {limit} or more.", "Plan 20 to 30 minutes, in stages if it gets hot.")
    return review().telling(speed="2000 to 2500 rpm" if camshaft_break_in_speed is None else camshaft_break_in_speed,
                            time="20 to 30 minutes" if camshaft_break_in_time is None else camshaft_break_in_time)
