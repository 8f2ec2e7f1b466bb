"""Oil pressure: hot at speed and at idle, cold, at the relief, and what a cross-drilled crank needs."""

from buildlint.rulebook import *
from buildlint.tables.oil import read_label

HOT = """
build: {rev_limit: %s}
oiling: {grade: %s, pressure_hot: %s}  %s
"""


def _wanted(rev_limit, oil_grade, for_each, thin_share, most):
    label = read_label(oil_grade) if oil_grade is not None else None
    share = thin_share if label is not None and label[1] <= 20 else 1.0
    return min(share * for_each * rev_limit / q("1000 rpm"), most)


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="Hot oil pressure at the rev limit is {value}; {wanted} is wanted{thin}.",
    fix="Look for a wide bearing, a weak relief spring, thin or hot oil, or a pickup that draws air; a larger pump only hides the first of them.",
    source="10 psi for each 1000 rpm, up to 40 percent less with thin oil in tight bearings: seen in several articles; cap common practice, "
           "no source",
    points_at=("oil_pressure_hot",),
    conforming=(HOT % ("6500 rpm", "10W-40", "65 psi", ""), HOT % ("6000 rpm", "10W-40", "58 psi", ""), HOT % ("8500 rpm", "20W-50", "70 psi", ""), HOT % ("6500 rpm", "5W-20", "40 psi", "")),
    nonconforming=(HOT % ("6500 rpm", "10W-40", "52 psi", "# <-"), HOT % ("6500 rpm", "10W-40", "42 psi", "# <-")),
)
def oil_pressure_suits_speed(
    oil_pressure_hot: Pressure, rev_limit: Rpm, oil_grade: Choice = None, *, for_each_thousand: Pressure = q("10 psi"),
    thin_oil_share: Fraction = q("0.60", "fraction"), enough: Pressure = q("70 psi"), warning_share: Fraction = q("0.85", "fraction"),
    note_share: Fraction = q("0.95", "fraction"),
):
    """Pressure carries oil against the crank's own spin to the big ends; ten pounds for each thousand turns is the old rule.

    Seventy is enough at any speed; more heats the oil and wears the drive. Engines built tight for a 20 grade run on six
    tenths of it. Five percent short is a gauge, up to fifteen is noted.
    """
    wanted = _wanted(rev_limit, oil_grade, for_each_thousand, thin_oil_share, enough)
    verdict = at_least(oil_pressure_hot, warning=Pressure(wanted * warning_share), note=Pressure(wanted * note_share))
    label = read_label(oil_grade) if oil_grade is not None else None
    return verdict.telling(wanted=Pressure(wanted, getattr(oil_pressure_hot, "unit", "")), thin=" with a 20 grade" if label is not None and label[1] <= 20 else "")


RELIEF = """
build: {rev_limit: %s}
oiling: {relief_pressure: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The relief opens at {value}, below the {limit} that is wanted at the rev limit.",
    fix="Fit the relief spring for {limit}; check the pump's drive for the load.",
    source="10 psi for each 1000 rpm seen in several articles; cap common practice, no source",
    when={"oil_relief_pressure": given},
    points_at=("oil_relief_pressure",),
    conforming=(RELIEF % ("6500 rpm", "70 psi", ""), RELIEF % ("8500 rpm", "70 psi", "")),
    nonconforming=RELIEF % ("6500 rpm", "50 psi", "# <-"),
)
def oil_relief_allows_needed_pressure(
    oil_relief_pressure: Pressure, rev_limit: Rpm, oil_grade: Choice = None, *, for_each_thousand: Pressure = q("10 psi"),
    thin_oil_share: Fraction = q("0.60", "fraction"), enough: Pressure = q("70 psi"),
):
    """Pressure never rises above the relief, whatever the pump; a stock spring opens too early for a faster engine."""
    return at_least(oil_relief_pressure, Pressure(_wanted(rev_limit, oil_grade, for_each_thousand, thin_oil_share, enough)))


IDLE = """
oiling: {pressure_idle: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="handover",
    says="Hot idle oil pressure is {value}; {limit} is the line.",
    fix="Stop and look: oil grade and heat, fuel in the oil, relief stuck open, a plug left out, bearing clearance.",
    source="10 psi at hot idle seen in several articles; 5 psi common practice, no source",
    points_at=("oil_pressure_idle",),
    conforming=(IDLE % ("20 psi", ""), IDLE % ("10 psi", "")),
    nonconforming=(IDLE % ("4 psi", "# <-"), IDLE % ("8 psi", "# <-")),
)
def idle_oil_pressure_holds(
    oil_pressure_idle: Pressure, *, warning_below: Pressure = q("10 psi"), error_below: Pressure = q("5 psi"),
):
    """Hot idle shows what the bearings really leak; hydraulic lifters and the cam live on what is left."""
    return at_least(oil_pressure_idle, error=error_below, warning=warning_below)


COLD = """
oiling: {pressure_cold: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="Cold oil pressure rises to {value}; above {limit} filters burst and the pump's drive suffers.",
    fix="A lower winter grade, a free relief valve, or a softer spring; warm up before revving.",
    source="common practice, no source",
    caution="A filter can burst: watch it at the first cold start, and do not rev a cold engine.",
    points_at=("oil_pressure_cold",),
    conforming=COLD % ("85 psi", ""),
    nonconforming=COLD % ("115 psi", "# <-"),
)
def cold_oil_pressure_is_bounded(oil_pressure_cold: Pressure, *, most: Pressure = q("100 psi")):
    """Thick oil lifts the pressure far over the relief's setting, and cam gear, drive shaft and filter carry it."""
    return at_most(oil_pressure_cold, most)


DRILLED = """
build: {rev_limit: %s}
crank: {oil_drilling: %s}  %s
bearings:
  main: {journal_diameter: 2.448 in}
oiling: {pressure_hot: 60 psi}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The cross-drilled crank throws its oil back with {value} at the rev limit, more than {limit} of the gallery's pressure.",
    fix="A crank with straight drillings, smaller mains, or more gallery pressure; full-groove mains do not help.",
    source="liquid that turns with the crank; the share common practice, no source",
    when={"crank_oil_drilling": given},
    points_at=("crank_oil_drilling",),
    conforming=(DRILLED % ("6500 rpm", "cross_drilled", ""), DRILLED % ("9000 rpm", "straight", "")),
    nonconforming=DRILLED % ("9000 rpm", "cross_drilled", "# <-"),
)
def crossdrilled_crank_feeds_its_rods(
    crank_oil_drilling: Choice, oil_crossdrilling_pressure: Pressure = None, oil_pressure_hot: Pressure = None, *, most_share: Fraction = q("0.70", "fraction"),
):
    """Oil that has to come to the middle of the main against its spin before it goes out again is lost first at high speed.

    Straight drillings start near the surface and do not have to climb.
    """
    if crank_oil_drilling != "cross_drilled":
        return not_applicable("drilled straight")
    if oil_crossdrilling_pressure is None or oil_pressure_hot is None:
        return lacking("oil_crossdrilling_pressure", "oil_pressure_hot")
    return at_most(Pressure(oil_crossdrilling_pressure), Pressure(most_share * oil_pressure_hot)).saying(
        "The cross-drilled crank throws its oil back with {value} at the rev limit; {limit}, seven tenths of the gallery's pressure, is the line.")
