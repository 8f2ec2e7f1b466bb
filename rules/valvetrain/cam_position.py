"""Whether the drive bolts on, clears its cover, and puts the cam where it is wanted."""

from buildlint.rulebook import *

NOSE = """
camshaft: {nose_bolts: 3}
timing_set: {cam_bolts: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The sprocket has {value} bolt holes, the nose of the cam {limit}.",
    fix="Order the two to one pattern: they cannot be made to fit.",
    source="geometry",
    when={"camshaft_nose_bolts": given, "timing_set_cam_bolts": given},
    points_at=("timing_set_cam_bolts",),
    conforming=NOSE % ("3", ""),
    nonconforming=NOSE % ("1", "# <-"),
)
def cam_drive_fits_cam_nose(camshaft_nose_bolts: Count, timing_set_cam_bolts: Count):
    """One family of engines has noses of one and of three bolts; a sprocket that does not bolt on stops the job.

    The teeth of the sensor wheel, which changed with them, are asked about at the ignition.
    """
    return matches(Count(timing_set_cam_bolts), Count(camshaft_nose_bolts))


DEGREED = """
intake:
  lobe: {centerline: 109 deg}
timing_set: {%sinstalled_centerline: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The cam stands at an intake centerline of {value}; {wanted} is {limit}.",
    fix="{move} by {by} of crank with an offset key, bushing or the sprocket's keyways, and degree it again.",
    spared=("stock",),
    source="common practice, no source",
    points_at=("timing_set_installed_centerline",),
    conforming=(DEGREED % ("", "109.5 deg", ""), DEGREED % ("wanted_centerline: 107 deg, ", "107 deg", ""), DEGREED % ("", "108 deg", "")),
    nonconforming=(DEGREED % ("", "111 deg", "# <-"), DEGREED % ("", "111.5 deg", "# <-"),
                   DEGREED % ("wanted_centerline: 107 deg, ", "110 deg", "# <-"), DEGREED % ("", "[109 deg, 106.5 deg]", "# <-")),
)
def installed_centerline_matches_card(
    timing_set_installed_centerline: Angle, timing_set_wanted_centerline: Angle = None, intake_lobe_centerline: Angle = None, *,
    warning_beyond: Angle = q("1 deg"), error_beyond: Angle = q("2 deg"),
):
    """The dots on the sprockets are only a promise: cam, key, dowel and sprocket each have their degree.

    Advance moves the intake valve nearer to the piston, retard the exhaust, about 0.006 in for each degree. A cam that
    is meant to stand elsewhere says so under wanted_centerline. Where more than one cylinder was degreed, each is
    judged.
    """
    meant, wanted = timing_set_wanted_centerline, "what is wanted"
    if meant is None:
        meant, wanted = intake_lobe_centerline, "the card's"
    if meant is None:
        return lacking("timing_set_wanted_centerline")
    off = timing_set_installed_centerline - meant
    verdict = at_most(Angle(abs(off)), warning=warning_beyond, error=error_beyond)
    verdict.comparing(Angle(timing_set_installed_centerline, "deg"), Angle(meant, "deg"))
    return verdict.telling(wanted=wanted, move="Advance the cam" if off > 0 else "Retard the cam", by=Angle(abs(off), "deg"))


COVER = """
timing_set: {cover_gap: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="Between the cam drive and its cover or block {value} is left; keep {limit}.",
    fix="Relieve cover or block by {cut:up}, take bolts with thinner heads, or a cover made for this drive.",
    source="common practice, no source; limit from memory",
    when={"timing_set_cover_gap": given},
    conforming=(COVER % ("0.120 in", ""), COVER % ("1.5 mm", "")),
    nonconforming=(COVER % ("0 in", "# <-"), COVER % ("0.040 in", "# <-")),
)
def timing_cover_clears_the_drive(timing_set_cover_gap: Length, *, least: Length = q("1.5 mm")):
    """A double roller chain or an adjustable sprocket is wider than what the cover was made for and saws through it.

    Chain, gears, bolt heads and the sensor wheel are looked at through a full turn, the cam pushed forward.
    """
    verdict = at_least(timing_set_cover_gap, warning=least)
    if timing_set_cover_gap <= 0:
        verdict.level = "error"
    return verdict.telling(cut=Length(least - timing_set_cover_gap))
