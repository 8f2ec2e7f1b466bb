"""Whether the distributor still has room over the drive of the oil pump once block and heads were cut."""

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
    fix="Shim the distributor up by {short}, or shorten the pump's shaft by as much; look at the mesh of the gear again.",
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
