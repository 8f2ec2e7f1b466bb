"""How the cam lies in the block: clearance and oil of its bearings, end play, what keeps it from walking, the plug behind it."""

from buildlint.rulebook import *

ROLLERS = ("hydraulic_roller", "solid_roller")

CLEARANCE = """
bearings:
  cam: {kind: plain, clearance: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="A cam bearing has {value} of clearance; keep {limit}.",
    fix="Measure the bearings in the block, after they are pressed in. Too tight: scrape or ream to {tight}, or true the tunnel; too "
        "loose: other bearings or a cam with full journals.",
    source="common practice, no source; one production sheet gives 0.0010 to 0.0030 in",
    points_at=("cam_bearing_clearance",),
    conforming=(CLEARANCE % ("0.0030 in", ""), CLEARANCE % ("[0.0020 in, 0.0024 in, 0.0050 in]", "")),
    nonconforming=(CLEARANCE % ("0.0012 in", "# <-"), CLEARANCE % ("0.0008 in", "# <-"), CLEARANCE % ("0.0052 in", "# <-"),
                   CLEARANCE % ("[0.0020 in, 0.0060 in]", "# <-")),
)
def cam_bearing_clearance_is_set(
    cam_bearing_clearance: Length = None, cam_bearing_kind: Choice = None, *,
    error=(q("0.0010 in"), q("0.0055 in")), warning=(q("0.0015 in"), q("0.0050 in")), target: Length = q("0.0025 in"),
):
    """A tight cam bearing seizes and spins, a loose one bleeds the pressure that lifters and rockers live on.

    Production runs as close as 0.0010 in, which is where the error begins; a builder fits by hand what turns freely
    at 0.002 to 0.004 in. Pressing in closes the bore, so only a measurement afterwards counts.
    """
    if cam_bearing_kind == "roller":
        return not_applicable("rolling bearings have no clearance to set")
    if cam_bearing_clearance is None:
        return lacking("cam_bearing_clearance")
    return within(cam_bearing_clearance, error=error, warning=warning).telling(tight=target)


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Look through every cam bearing: its hole stands over the feed in the block.",
    fix="Pass a wire through each hole into the gallery, then sign for it.",
    source="common practice, no source",
    conforming="bearings: {cam: {kind: plain}}",
)
def cam_bearings_feed_oil(cam_bearing_kind: Choice = None):
    """A cam bearing pressed in off its hole starves its own journal and whatever is fed through it.

    Rolling bearings need the opposite: a restricted hole, or they drain the gallery.
    """
    if cam_bearing_kind == "roller":
        return review().saying("Look at the feed to every rolling cam bearing: it is restricted, or the gallery drains through it.",
                               "Fit the restrictors the bearing's maker gives, then sign for it.")
    return review()


PLAY = """
camshaft: {held_by: %s, %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="The cam has {value} of end play{where}; keep {limit}.",
    fix="Shim or face the plate, or set the button, to {low:up} to {high:down}.",
    source="common practice, no source; production and army sheets give 0.001 to 0.006 and 0.003 to 0.0045 in, 0.008 in worn",
    points_at=("camshaft_end_play", "camshaft_button_clearance"),
    conforming=(PLAY % ("thrust_plate", "end_play: 0.006 in", ""), PLAY % ("thrust_plate", "end_play: 0.0031 in", ""),
                PLAY % ("button", "button_clearance: 0.007 in", "")),
    nonconforming=(PLAY % ("thrust_plate", "end_play: 0.0005 in", "# <-"), PLAY % ("thrust_plate", "end_play: 0.012 in", "# <-"),
                   PLAY % ("thrust_plate", "end_play: 0.016 in", "# <-"), PLAY % ("button", "button_clearance: 0.012 in", "# <-")),
)
def cam_end_play_is_set(
    camshaft_held_by: Choice = None, camshaft_end_play: Length = None, camshaft_button_clearance: Length = None,
    intake_lifter_kind: Choice = None, *,
    error=(q("0.001 in"), q("0.014 in")), warning=(q("0.002 in"), q("0.010 in")), button=(q("0.005 in"), q("0.010 in")),
):
    """With no end play the cam binds when it is hot; with much of it the spark wanders and the lifters leave their lobes.

    A flat cam that only its lobe taper holds has no end play to set, and is not asked.
    """
    if camshaft_held_by in ("none", "lobe_taper") or (camshaft_held_by is None and intake_lifter_kind not in (None, *ROLLERS)):
        return not_applicable("neither plate nor button holds the cam")
    if camshaft_held_by is None:
        return lacking("camshaft_held_by")
    if camshaft_held_by == "button" and camshaft_button_clearance is not None:
        value, warning, where = camshaft_button_clearance, button, " at the button"
    elif camshaft_end_play is not None:
        value, where = camshaft_end_play, ""
    else:
        return lacking("camshaft_button_clearance" if camshaft_held_by == "button" else "camshaft_end_play")
    return within(value, error=error, warning=warning).telling(where=where, low=warning[0], high=warning[1])


THRUST = """
lifters: {kind: %s}
camshaft: {held_by: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="A roller cam is held {how}: nothing keeps it from walking forward.",
    fix="Fit a thrust plate behind the sprocket, or a button against a timing cover stiff enough to bear it.",
    source="common practice, no source",
    points_at=("camshaft_held_by",),
    conforming=(THRUST % ("hydraulic_roller", "thrust_plate", ""), THRUST % ("solid_roller", "button", ""),
                THRUST % ("solid_flat", "lobe_taper", "")),
    nonconforming=(THRUST % ("hydraulic_roller", "none", "# <-"), THRUST % ("solid_roller", "lobe_taper", "# <-")),
)
def roller_cam_has_thrust_means(camshaft_held_by: Choice = None, intake_lifter_kind: Choice = None, camshaft_grind: Choice = None):
    """The taper of flat lobes pushes the cam to the rear of its block; roller lobes are straight and push nowhere.

    A free roller cam walks on its drive gear, and spark and lifters walk with it. A thin stamped cover bends before a
    button.
    """
    kind = intake_lifter_kind if camshaft_grind is None else camshaft_grind
    if kind is None:
        return lacking("lifter_kind")
    if kind not in ROLLERS:
        return not_applicable("flat lobes hold the cam by their taper")
    if camshaft_held_by is None:
        return lacking("camshaft_held_by")
    return one_of(camshaft_held_by, ("thrust_plate", "button")).telling(
        how="by nothing" if camshaft_held_by == "none" else "only by lobe taper, which it does not have")


PLUG = """
camshaft: {rear_plug_gap: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The cam, pushed back, leaves {value} to the plug behind it; keep {limit}.",
    fix="Drive the plug {deeper:up} deeper into its bore, or take a thinner one; sealant behind a plug that touches only hides it.",
    source="common practice, no source; limit from memory",
    when={"camshaft_rear_plug_gap": given},
    conforming=(PLUG % ("0.040 in", ""), PLUG % ("0.25 mm", "")),
    nonconforming=(PLUG % ("0 in", "# <-"), PLUG % ("0.005 in", "# <-")),
)
def rear_cam_plug_clears_the_cam(camshaft_rear_plug_gap: Length, *, least: Length = q("0.25 mm")):
    """A plug that the cam touches is pushed out by it, and the oil of the rear gallery follows.

    Found only with the cam pushed fully back, before the flywheel goes on. Where the gap was not taken the rule has
    nothing to say.
    """
    verdict = at_least(camshaft_rear_plug_gap, warning=least)
    if camshaft_rear_plug_gap <= 0:
        verdict.level = "error"
    return verdict.telling(deeper=Length(least - camshaft_rear_plug_gap))
