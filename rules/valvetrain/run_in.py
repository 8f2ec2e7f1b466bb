"""Paste and plan for the first half hour of a flat cam."""

from buildlint.rulebook import *

FLATS = ("hydraulic_flat", "solid_flat")
RUN_BEFORE = ("reused", "reused_in_place")

RUN_CAUTION = ("A running engine moves, burns and gases: guards on, exhaust led outside, extinguisher and a second person at "
               "hand, and the maker's instructions followed.")

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
