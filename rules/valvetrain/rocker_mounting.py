"""How rockers are set, locked and carried on their shafts."""

from buildlint.rulebook import *


@rule(
    scope="side",
    level="reminder",
    due="assembly",
    says="Tighten each net-lash rocker only with its lifter on the base circle, in small steps, and wait until the lifter "
         "has bled down.",
    fix="Turn the engine until the lobe points away, run the bolt down by hand, then to its torque with a torque wrench; "
        "give a pumped-up lifter some minutes before you turn on.",
    source="service practice, no source",
    conforming="""
        lifters: {kind: hydraulic_roller}
        rockers: {adjustment: none_net_lash}
        """,
)
def net_lash_bolts_wait_for_lifter(rocker_adjustment: Choice = None, lifter_kind: Choice = None):
    """A rocker bolt pulled down against a full lifter holds the valve open, and the next turn finds the piston there.

    Only the person with the wrench can see it.
    """
    if rocker_adjustment != "none_net_lash" or lifter_kind in ("solid_flat", "solid_roller"):
        return not_applicable("no net-lash rockers on hydraulic lifters")
    return review()


LOCKED = """
rockers: {adjustment: %s, adjuster_lock: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="assembly",
    says="The rockers' adjusters are not locked.",
    fix="Lock them with a nut and set screw, a jam nut or a prevailing-torque nut, and write adjuster_lock.",
    source="common practice, no source",
    when={"rocker_adjustment": ("stud_nut", "pushrod_end")},
    points_at=("rocker_adjuster_lock",),
    conforming=(LOCKED % ("stud_nut", "set_screw_nut", ""), LOCKED % ("pushrod_end", "jam_nut", "")),
    nonconforming=LOCKED % ("stud_nut", "none", "# <-"),
)
def rocker_adjusters_are_locked(rocker_adjuster_lock: Choice):
    """An adjuster that backs off opens the lash, hammers the tip and ends with a pushrod out of its cup."""
    return require(rocker_adjuster_lock != "none")


SHAFT = """
rockers: {mount: shaft, bearing: %s, shaft_clearance: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The rockers run on their shaft with {rocker_shaft_clearance} of play; {least:up} to {most:down} is usual.",
    fix="Hone the bush or fit another; aim at {aim}, measured with bore gauge and micrometer.",
    source="common practice, no source; from memory",
    when={"rocker_mount": ("shaft",)},
    points_at=("rocker_shaft_clearance",),
    conforming=(SHAFT % ("bushing", "0.0030 in", ""), SHAFT % ("plain_shaft", "0.0020 in", ""), SHAFT % ("needle", "0.0010 in", "")),
    nonconforming=(SHAFT % ("bushing", "0.0017 in", "# <-"), SHAFT % ("bushing", "0.0012 in", "# <-"),
                   SHAFT % ("plain_shaft", "0.0060 in", "# <-")),
)
def rocker_runs_free_on_shaft(
    rocker_shaft_clearance: Length = None, rocker_bearing: Choice = None, duty: Choice = None, *,
    warning_outside=(q("0.0020 in"), q("0.0045 in")), error_below: Length = q("0.0015 in"), error_below_stock: Length = q("0.0005 in"),
    warning_below_stock: Length = q("0.0010 in"),
):
    """A tight bush seizes on its shaft before the oil gets there; a loose one bleeds the oil away from the next rocker.

    Asked of plain bearings; needle rockers are made as a unit. Engines put together as they were made, with light springs
    and low speeds, run with half of it: workshop manuals begin at 0.0005 to 0.001 in.
    """
    if rocker_bearing in ("needle", "caged_needle", "ball"):
        return not_applicable("a rolling bearing, made as a unit")
    if rocker_shaft_clearance is None:
        return lacking("rocker_shaft_clearance")
    least, most = warning_outside
    if duty == "stock":
        least, error_below = warning_below_stock, error_below_stock
    verdict = within(rocker_shaft_clearance, error=(error_below, None), warning=(least, most))
    if verdict.level == "error":
        verdict.saying("The rockers run on their shaft with only {rocker_shaft_clearance} of play; below {limit} they seize.")
    return verdict.telling(least=Length(least), most=Length(most), aim=Length((least + most) / 2))


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Shafts, stands, spacers and springs of the rockers go back in their order: oil holes of the shaft facing down and "
         "toward the pushrods as the maker says, the fed stand in its place, end plugs in.",
    fix="Lay them out in order, oil them, turn each rocker by hand on the shaft, and tighten the stands step by step.",
    source="common practice, no source",
    conforming="rockers: {mount: shaft}",
)
def rocker_shaft_parts_are_in_order(rocker_mount: Choice = None):
    """A shaft turned upside down starves every rocker on it, and a stand in the wrong place blocks the feed.

    Which way the holes face differs from engine to engine; its own manual decides.
    """
    return review() if rocker_mount == "shaft" else not_applicable("no rocker shafts")


STUD = """
rockers: {class: aluminum_roller_stud_%s, mount: stud, adjustment: stud_nut, stud_diameter: %s, adjuster_thread: %s}  %s
"""
MADE_FOR_STUD = {"aluminum_roller_stud_3_8": q("3/8 in"), "aluminum_roller_stud_7_16": q("7/16 in"), "steel_roller_stud_7_16": q("7/16 in")}


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Bring rockers, studs and adjusting nuts to one size; larger studs and larger rockers go together.",
    source="geometry",
    points_at=("rocker_stud_diameter", "rocker_adjuster_thread", "rocker_class"),
    conforming=(STUD % ("7_16", "7/16 in", "7/16-20", ""), STUD % ("3_8", "3/8 in", "3/8-24", ""), "rockers: {class: shaft_steel, adjuster_thread: 7/16-20}"),
    nonconforming=(STUD % ("3_8", "7/16 in", "7/16-20", "# <-"), STUD % ("7_16", "3/8 in", "3/8-24", "# <-"),
                   STUD % ("7_16", "7/16 in", "3/8-24", "# <-")),
)
def rocker_fits_its_stud(
    rocker_class: Choice = None, rocker_stud_diameter: Length = None, rocker_adjuster_thread: Thread = None, rocker_adjustment: Choice = None, *,
    made_for=MADE_FOR_STUD, same_within: Length = q("0.010 in"),
):
    """A trunnion bored for one stud sits crooked on a thinner one and does not go on a thicker; a nut of the other size never starts.

    Stud sizes are mixed up when heads come with the larger studs and the rockers of the old ones stay.
    """
    if rocker_stud_diameter is None:
        return not_applicable("the stud's size is not written")
    wanted = made_for.get(rocker_class)
    if wanted is not None and abs(wanted - rocker_stud_diameter) > same_within:
        return require(False).at("rocker_stud_diameter", "rocker_class").telling(wanted=wanted).saying(
            "Rockers made for studs of {wanted} are to go on studs of {rocker_stud_diameter}.")
    if rocker_adjustment == "stud_nut" and rocker_adjuster_thread is not None \
            and abs(rocker_adjuster_thread.diameter - rocker_stud_diameter) > same_within:
        return require(False).at("rocker_adjuster_thread").saying(
            "The adjusting nut of {rocker_adjuster_thread} does not go on a stud of {rocker_stud_diameter}.")
    return passes()
