"""Oil to lifters and rockers, and its way back."""

from buildlint.rulebook import *

RESTRICTED = """
lifters: {kind: %s}
oiling:
  lifter_restrictors: %s  %s
"""


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The feed to the lifters is restricted, and {lifter_kind} lifters live on it.",
    fix="Take the restrictors out of the lifter gallery.",
    source="common practice, no source",
    when={"oil_lifter_restrictors": given, "lifter_kind": given},
    points_at=("oil_lifter_restrictors",),
    conforming=(RESTRICTED % ("hydraulic_roller", "none", ""), RESTRICTED % ("solid_flat", "fitted", "")),
    nonconforming=RESTRICTED % ("hydraulic_flat", "fitted", "# <-"),
)
def oil_to_hydraulic_lifters_is_open(lifter_kind: Choice, oil_lifter_restrictors: Choice):
    """Orifices that keep oil in the pan of a solid-lifter racer let hydraulic lifters run dry and collapse.

    They are left behind in many a block that changes its lifters.
    """
    return require(oil_lifter_restrictors == "none" or not lifter_kind.startswith("hydraulic"))


HEAD = """
rockers: {bearing: %s}
oiling: {head_restrictors: fitted, head_restrictor_bore: %s, spring_oilers: %s}  %s
exhaust:
  spring: {open_load: %s}
"""

BEARING_OF_CLASS = {"stamped_ball": "ball", "production_needle_trunnion": "needle", "production_caged_trunnion": "caged_needle",
                    "production_bushing_trunnion": "bushing", "production_shaft": "plain_shaft"}


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The oil to the heads is restricted, and {trouble}.",
    fix="{cure}",
    source="common practice, no source",
    when={"oil_head_restrictors": fitted},
    points_at=("oil_head_restrictors",),
    conforming=(HEAD % ("needle", "0.060 in", "none", "", "380 lbf"), HEAD % ("needle", "0.060 in", "fitted", "", "700 lbf"),
                HEAD % ("bushing", "0.090 in", "none", "", "380 lbf")),
    nonconforming=(HEAD % ("bushing", "0.040 in", "none", "# <-", "380 lbf"), HEAD % ("needle", "0.060 in", "none", "# <-", "620 lbf")),
)
def rocker_oil_suits_its_bearing(
    oil_head_restrictor_bore: Length = None, rocker_bearing: Choice = None, rocker_class: Choice = None,
    spring_open_load: Force = None, oil_spring_oilers: Choice = None, *, restricts_below: Length = q("0.080 in"),
    oilers_above: Force = q("500 lbf"),
):
    """Needles live on a mist; bushings, balls and plain shafts want oil that comes under pressure, and springs want cooling.

    An orifice of 0.040 to 0.060 in suits needle rockers. Stiff springs shed their heat into oil, so with a restricted
    feed they get their own jets.
    """
    if oil_head_restrictor_bore is not None and oil_head_restrictor_bore >= restricts_below * (1 - 1e-9):
        return passes()
    bearing = BEARING_OF_CLASS.get(rocker_class) if rocker_bearing is None else rocker_bearing
    if bearing in ("bushing", "plain_shaft", "ball"):
        return require(False).telling(trouble="the rockers run on {}".format(
            {"bushing": "bushings", "plain_shaft": "a plain shaft", "ball": "balls"}[bearing]),
            cure="Take the restrictors out, or go to rockers on needles.")
    if spring_open_load is not None and spring_open_load > oilers_above * (1 + 1e-9) and oil_spring_oilers != "fitted":
        return at_most(spring_open_load, oilers_above).saying(
            "The oil to the heads is restricted, and springs of {value} open have no oil of their own.",
            "Fit spring oilers, or open the feed; up to {limit} the mist is enough.")
    if bearing is None and spring_open_load is None:
        return lacking("rocker_bearing")
    return passes()


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Look at the drain-backs: open from end to end, deburred, matched to the gasket, with no sealant near them.",
    fix="Pour oil through each and see it come out; look whether the gasket can be turned round over them. Then sign for it.",
    source="common practice, no source",
    conforming="heads: {material: cast_iron}",
)
def drain_backs_are_open():
    """Oil that cannot run back stands in the covers, goes down the guides, and is missing in the pan.

    A gasket turned end for end, a bead of sealant or casting flash closes a hole as well as dirt does. Plugs of
    galleries that were opened for accessories belong to the same look.
    """
    return review()
