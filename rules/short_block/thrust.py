"""The crank's end play and what pushes on its thrust bearing."""

from buildlint.rulebook import *

PLAY = """
crank: {end_play: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="The crank's end play is {value}; {limit} is the line, {aim_low} to {aim_high} the aim.",
    fix="Fit a thrust shell with wider flanges, or have the crank's thrust face welded and ground.",
    source="0.004 to 0.010 in seen as a factory figure; limits common practice, no source",
    points_at=("crank_end_play",),
    conforming=(PLAY % ("0.006 in", ""), PLAY % ("0.010 in", ""), PLAY % ("0.003 in", "")),
    nonconforming=(PLAY % ("0.0025 in", "# <-"), PLAY % ("0.012 in", "# <-"), PLAY % ("0.015 in", "# <-")),
)
def crank_end_play_is_set(
    crank_end_play: Length, *, error_below: Length = q("0.003 in"), warning_above: Length = q("0.010 in"), error_above: Length = q("0.013 in"),
    aim_low: Length = q("0.004 in"), aim_high: Length = q("0.008 in"),
):
    """Without end play the thrust face has no oil and is gone in minutes; with much the rods wander and the clutch moves the crank.

    Measured by indicator, pried fore and aft, the thrust cap torqued after its halves were lined up.
    """
    verdict = within(Length(crank_end_play), error=(error_below, error_above), warning=(None, warning_above))
    return verdict.saying(fix="Line up the thrust halves by prying the crank before the cap is torqued and measure again; then rub the "
                          "shell's thrust faces down on a flat plate." if verdict.facts.get("side") == "below" else None)


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="The crank is pried fore and aft with the thrust cap snug, so that both halves of the thrust shell bear; then the cap is torqued and "
         "the end play measured again.",
    fix="Pry with a wooden lever or a bar on clean metal, never on a journal.",
    source="common practice, no source",
    when={"crank_stroke": given},
    points_at=("crank_end_play", "crank_stroke"),
    conforming="crank: {stroke: 3.750 in}",
)
def thrust_shells_are_seated_first(crank_stroke: Length):
    """A thrust half that stands proud carries all of the clutch's push on half of its face."""
    return review()


CLUTCH = """
build: {transmission: manual}
crank: {thrust_outside_diameter: 82 mm, thrust_inside_diameter: 70 mm}
driveline:
  clutch: {release_load: %s, release: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The clutch pushes the thrust bearing with {value}; {limit} is the line{kind}.",
    fix="A clutch that releases at {load_to_stay_under:down} or less, a release bearing with free play, and thrust faces with grooves that are fed.",
    source="common practice, no source, and uncertain",
    when={"transmission": ("manual",), "clutch_release_load": given, "crank_thrust_outside_diameter": given},
    points_at=("clutch_release_load",),
    conforming=(CLUTCH % ("1500 N", "free_play", ""), CLUTCH % ("700 N", "constant_contact", "")),
    nonconforming=(CLUTCH % ("3200 N", "free_play", "# <-"), CLUTCH % ("2000 N", "constant_contact", "# <-"), CLUTCH % ("2000 N", "free_play", "# <-")),
)
def thrust_bearing_carries_release_force(
    clutch_release_load: Force, crank_thrust_outside_diameter: Length, crank_thrust_inside_diameter: Length,
    crank_thrust_arc_fraction: Fraction = None, clutch_release: Choice = None, *,
    note_above: Pressure = q("1.4 MPa"), warning_above: Pressure = q("2.8 MPa"), constant_warning_above: Pressure = q("0.7 MPa"),
    usual_arc: Fraction = q("0.75", "fraction"),
):
    """The pedal's push ends at the thrust bearing; starting in gear with the pedal down does it without oil.

    The pressures have no source and are the least certain of the catalogue, so this is never more than a warning. A
    release bearing that always touches pushes all day and gets a lower line.
    """
    arc = usual_arc if crank_thrust_arc_fraction is None else crank_thrust_arc_fraction
    area = arc * 3.141592653589793 / 4 * (crank_thrust_outside_diameter**2 - crank_thrust_inside_diameter**2)
    if area <= 0:
        return lacking("crank_thrust_outside_diameter", "crank_thrust_inside_diameter")
    pressure = clutch_release_load / area
    constant = clutch_release == "constant_contact"
    verdict = at_most(Pressure(pressure), warning=constant_warning_above if constant else warning_above,
                      note=None if constant else note_above)
    line = constant_warning_above if constant else note_above
    return verdict.telling(kind=" for a release bearing in constant contact" if constant else "", load_to_stay_under=Force(line * area))


CONVERTER = """
build: {transmission: automatic}
driveline:
  converter: {pull_forward: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The converter comes forward {value} to the flexplate; {least:up} to {most:down} is wanted.",
    fix="Seat the converter fully in the pump; if it still has no room, look for a wrong flexplate, hub or mid-plate.",
    source="common practice, no source",
    when={"transmission": ("automatic",)},
    points_at=("converter_pull_forward",),
    conforming=(CONVERTER % ("1/8 in", ""), CONVERTER % ("3/16 in", "")),
    nonconforming=(CONVERTER % ("0 in", "# <-"), CONVERTER % ("0.300 in", "# <-")),
)
def thrust_is_free_after_fitting(
    converter_pull_forward: Length, *, least: Length = q("1/16 in"), most: Length = q("3/16 in"),
):
    """A converter that is bottomed pushes the crank forward all its life; one pulled far out leaves the pump's drive.

    Measured after pushing the converter home and bolting the bellhousing. End play measured then must be what it was on
    the stand.
    """
    verdict = within(Length(converter_pull_forward), warning=(least, most))
    return verdict.telling(far=Length(max(converter_pull_forward - most, 0.0))).saying(
        fix=None if verdict.facts.get("side") == "below" else
        "Shim between flexplate and converter with hardened washers of one thickness, {far:up} or a little more.")
