"""The engine in its place: starter and ring gear, room under the hood, and gaps in the engine bay."""

from buildlint.rulebook import *

PINION = """
flywheel: {pinion_tooth_clearance: %s, pinion_rest_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source, from memory; the starter maker's figure wins",
    when={"flywheel_pinion_tooth_clearance": given},
    points_at=("flywheel_pinion_tooth_clearance",),
    caution="Battery off while working at the starter.",
    conforming=PINION % ("0.028 in", "0.080 in", ""),
    nonconforming=(PINION % ("0.012 in", "0.080 in", "# <-"), PINION % ("0.045 in", "0.080 in", "# <-"), PINION % ("0.028 in", "0.030 in", "# <-")),
)
def starter_pinion_clears_ring_gear(
    flywheel_pinion_tooth_clearance: Length, flywheel_pinion_rest_gap: Length = None, *, least: Length = q("0.5 mm"), most: Length = q("0.9 mm"),
    rest_least: Length = q("1.5 mm"), rest_most: Length = q("3 mm"),
):
    """Too deep a mesh howls and breaks the nose of the starter, too shallow a one mills the ring gear; a stray pinion does it on the road."""
    verdict = within(flywheel_pinion_tooth_clearance, least, most)
    if verdict.kind == "fail":
        shim = Length(abs((least + most) / 2 - flywheel_pinion_tooth_clearance), flywheel_pinion_tooth_clearance.unit)
        deep = flywheel_pinion_tooth_clearance < least
        return verdict.telling(shim=shim, least=Length(least), most=Length(most)).saying(
            "The engaged pinion leaves {value} at the root of the ring gear's teeth; keep {least:up} to {most:down}.",
            ("Shim the starter away from the ring gear by about {shim}, both pads alike." if deep else
             "Bring the starter nearer by about {shim}: take shims out, or shim its outer pad only if the maker says so."))
    if flywheel_pinion_rest_gap is None:
        return verdict
    verdict = within(flywheel_pinion_rest_gap, rest_least, rest_most).at("flywheel_pinion_rest_gap")
    return verdict.telling(least=Length(rest_least), most=Length(rest_most)).saying(
        "At rest the pinion stands {value} from the ring gear; keep {least:up} to {most:down}.",
        "Look at the starter for this flywheel or flexplate, the block plate and the wheel's offset.")


HOOD = """
induction: {hood_gap: %s, air_filter: {lid_gap: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{value} are left between the highest point and the hood; an engine that rolls on its mounts needs {limit}.",
    fix="Lower the stack by {lower:up}: a lower manifold, spacer or filter, a drop base, or a scoop; measure with clay on the filter.",
    source="common practice, no source",
    when={"hood_gap": given},
    points_at=("hood_gap",),
    conforming=(HOOD % ("1.2 in", "1.5 in", ""), HOOD % ("25 mm", "1.5 in", "")),
    nonconforming=(HOOD % ("0.6 in", "1.5 in", "# <-"), HOOD % ("-0.2 in", "1.5 in", "# <-"), HOOD % ("1.5 in", "0.7 in", "# <-")),
)
def engine_fits_the_bay(
    hood_gap: Length, air_filter_lid_gap: Length = None, *, roll: Length = q("25 mm"), lid: Length = q("30 mm"),
):
    """Manifold, carburetor, spacer and filter are one stack, and it moves: torque lifts one side of the engine by an inch.

    The lid of the filter belongs to the stack too: closer than 30 mm above the vents it costs the power the manifold was to bring,
    so a lower lid is no way to gain room.
    """
    verdict = at_least(hood_gap, error=Length(0.0), warning=roll)
    if verdict.kind == "fail":
        verdict.limit = roll
        return verdict.telling(lower=Length(roll - hood_gap, hood_gap.unit))
    if air_filter_lid_gap is not None:
        near = at_least(air_filter_lid_gap, warning=lid).at("air_filter_lid_gap")
        if near.kind == "fail":
            return near.saying("The lid of the air filter stands {value} above the inlet; keep {limit}.",
                               "Take a taller filter, where the hood leaves room for it.")
    return verdict


@rule(
    scope="build",
    level="reminder",
    due="mock_up",
    says="With the engine in its mounts: fan to radiator {fan}, steering and starter {near}, distributor to firewall, pan to crossmember, damper to rack; "
         "and the throttle opens fully by the pedal.",
    fix="Measure each gap with the engine rocked on its mounts, and sign.",
    source="common practice, no source; 25 to 40 mm at the fan and 12 to 15 mm at chassis and steering are published figures",
    when={"hood_gap": given},
    caution="An engine on a hoist or loose on its mounts: nobody under it, and hands out of the gaps.",
    conforming="induction: {hood_gap: 1.5 in}",
)
def engine_bay_gaps_are_checked(hood_gap: Length, *, fan: Length = q("25 mm"), near: Length = q("12 mm")):
    """What touches at idle is chafed through in a week; what touches under torque breaks at once."""
    return review().telling(fan=Length(fan), near=Length(near))


FAN = """
cooling: {fan_radiator_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="The fan stands {value} from the radiator; keep {limit}.",
    fix="Take a shorter spacer or a thinner clutch, or set the radiator forward; measure with the engine pushed forward on its mounts.",
    source="25 to 40 mm are published figures; below half an inch common practice, no source",
    when={"fan_radiator_gap": given},
    caution="Battery off and hands out of the fan: an electric one starts by itself, also with the engine off.",
    conforming=(FAN % ("1.2 in", ""), FAN % ("25 mm", ""), FAN % ("60 mm", "")),
    nonconforming=(FAN % ("0.4 in", "# <-"), FAN % ("0.8 in", "# <-")),
)
def fan_stands_off_the_radiator(fan_radiator_gap: Length, *, note_below: Length = q("25 mm"), warning_below: Length = q("1/2 in")):
    """Rubber mounts let the engine walk forward when the car brakes hard, and the fan then saws through the core.

    An inch leaves room for that and for air to spread over the core. A fan that hangs on the radiator itself does not move with the
    engine; its gap is its maker's.
    """
    return at_least(fan_radiator_gap, warning=warning_below, note=note_below)
