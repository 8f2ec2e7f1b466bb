"""Whether the distributor has its room: over the drive of the oil pump once block and heads were cut, and along its own shaft."""

from buildlint.rulebook import *

GAP = """
oiling: {pump: {drive: distributor_gear}}
ignition:
  distributor: {pump_drive_gap: %s}  %s
"""
CUT = """
engine: {bank_angle: 90 deg}
block: {deck_removed: 0.020 in}
heads: {face_removed: 0.010 in}
induction: {manifold: {face_angle: 55 deg}}
oiling: {pump: {drive: distributor_gear}}
ignition:
  distributor: {pump_drive_gap_before: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="Between the distributor's shaft and the pump's drive {value} of end gap is left; keep {limit}.",
    fix="Shim the distributor up by {short:up}, or shorten the pump's shaft by as much; look at the mesh of the gear again.",
    source="geometry; limit common practice, no source",
    when={"distributor_pump_drive_gap": given, "oil_pump_drive": ("distributor_gear",)},
    points_at=("distributor_pump_drive_gap_written", "distributor_pump_drive_gap_before"),
    conforming=(GAP % ("0.060 in", ""), CUT % ("0.080 in", "")),
    nonconforming=(GAP % ("0.015 in", "# <-"), GAP % ("-0.005 in", "# <-"), CUT % ("0.060 in", "# <-"), CUT % ("0.050 in", "# <-")),
)
def distributor_clears_the_pump_drive(distributor_pump_drive_gap: Length, oil_pump_drive: Choice, *, least: Length = q("0.5 mm")):
    """Heads that come down bring intake and distributor down with them, by more than was cut off.

    On a 90 degree V with faces 10 degrees off the banks 0.030 in of cuts lower the distributor by 0.051 in. Out of
    end gap, its shaft stands on the pump's and wears out its gear, or holds the distributor off its seat.
    """
    verdict = at_least(distributor_pump_drive_gap, error=Length(0.0), warning=least)
    verdict.telling(short=Length(least - distributor_pump_drive_gap), over=Length(-distributor_pump_drive_gap))
    if distributor_pump_drive_gap < 0:
        verdict.saying("The distributor's shaft stands {over} too deep: it meets the pump's drive before it is seated.")
    return verdict


PLAY = """
ignition:
  spark_source: distributor
  distributor: {end_play: %s%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The distributor's shaft has {value} of end play {where}; {low:up} to {high:down} is usual.",
    fix="Fit shims between housing and gear until it has about {target}, or what the distributor's maker gives, and turn it by hand.",
    source="common practice, no source; makers' figures from 0.002 to 0.035 in, from memory",
    points_at=("distributor_end_play", "distributor_end_play_clamped"),
    conforming=(PLAY % ("0.015 in", "", ""), PLAY % ("0.005 in", "", ""), PLAY % ("0.035 in", "", ""),
                PLAY % ("0.015 in", ", end_play_clamped: 0.014 in", "")),
    nonconforming=(PLAY % ("0.004 in", "", "# <-"), PLAY % ("0.001 in", "", "# <-"), PLAY % ("0 in", "", "# <-"), PLAY % ("0.040 in", "", "# <-"),
                   PLAY % ("0.055 in", "", "# <-"), PLAY % ("0.015 in", ", end_play_clamped: 0 in", "# <-")),
)
def distributor_shaft_has_end_play(
    distributor_end_play: Length = None, distributor_end_play_clamped: Length = None, *,
    note=(q("0.005 in"), q("0.035 in")), warning=(q("0.002 in"), q("0.050 in")), target: Length = q("0.015 in"),
):
    """Without play the shaft seizes between its gear and its housing when hot; with much, the gear climbs its helix and the spark wanders.

    An aluminum housing takes up about 0.005 in of it on its way to running heat. Makers' windows run from 0.002 to
    0.007 in up to 0.024 to 0.035 in, and the maker's counts; 0.010 to 0.020 in is what most set. What is left with the
    clamp tight tells the rest: play that was there on the bench and is gone in the engine means that the gear stands
    on the block or the shaft on the pump's drive.
    """
    clamped, bench = distributor_end_play_clamped, distributor_end_play
    if clamped is None and bench is None:
        return not_applicable("the end play of the distributor is not written")
    facts = {"low": Length(note[0]), "high": Length(note[1]), "target": Length(target)}
    if clamped is not None and (bench is None or clamped < note[0] <= bench):
        verdict = _play(clamped, note, warning).at("distributor_end_play_clamped").telling(where="in the engine, with its clamp tight", **facts)
        if bench is not None:
            verdict.telling(bench=bench).saying(
                "With its clamp tight the distributor has {value} of end play left, of {bench} on the bench: its gear stands on the block or its "
                "shaft on the pump's drive.",
                "Shim the housing up at its flange until the play of the bench is back, then look at the mesh of the gear again.")
        return verdict
    return _play(bench, note, warning).at("distributor_end_play").telling(where="on the bench" if clamped is not None else "along its axis", **facts)


def _play(play, note, warning):
    """None at all is an error: the shaft binds; what lies outside what anybody sets is a warning, outside the usual a note."""
    if play <= 0:
        return at_least(play, error=note[0])
    return within(play, warning=warning, note=note)
