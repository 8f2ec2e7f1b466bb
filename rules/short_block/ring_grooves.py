"""Rings in their grooves and on their lands: play beside and behind, widths, and how near the fire they sit."""

from buildlint.rulebook import *

SIDE = """
rings:
  %s: {width: %s, groove_width: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="mock_up",
    says="The {ring_name} ring has {value} of side clearance in its groove; {low:up} to {high:down} is usual.",
    fix="Order the ring of the groove's size, or have the groove cut.",
    source="common practice, no source; 0.0012 to 0.0029 in new and 0.0039 in worn seen as factory figures",
    compares=("side_clearance",),
    points_at=("side_clearance",),
    conforming=(SIDE % ("top", "0.0620 in", "0.0635 in", ""), SIDE % ("oil", "0.1870 in", "0.1890 in", ""),
                SIDE % ("top", "0.0430 in", "0.0438 in", "")),
    nonconforming=(SIDE % ("top", "0.0632 in", "0.0635 in", "# <-"), SIDE % ("top", "0.0600 in", "0.0635 in", "# <-"),
                   SIDE % ("second", "0.0590 in", "0.0635 in", "# <-"), """
        rings:
          top: {width: 0.0620 in, groove_width: 0.0635 in, side_clearance: 0.0030 in}  # <-
        """),
)
def ring_side_clearance_is_set(
    ring_name: Choice, side_clearance: Length = None, width: Length = None, groove_width: Length = None,
    side_clearance_written: Length = None, side_clearance_computed: Length = None, *,
    error_below: Length = q("0.0005 in"), note_below: Length = q("0.0007 in"), warning_above: Length = q("0.0030 in"),
    error_above: Length = q("0.0040 in"), oil_warning_above: Length = q("0.0065 in"), agree_within: Length = q("0.0005 in"),
    another_size: Length = q("0.15 mm"), usual_least: Length = q("0.0010 in"), usual_most: Length = q("0.0020 in"),
):
    """A ring must follow the bore freely, but a loose one flutters, pumps oil and hammers its land.

    Thin race rings run at 0.0007 to 0.0015 in, street rings at 0.0010 to 0.0020; worn grooves of production engines
    are given up at 0.004 in. Oil rings with their expander are wider. A difference as large as another ring size is
    left to the rule on widths.
    """
    if side_clearance is None:
        return not_applicable("oil rings are seldom measured") if ring_name == "oil" else lacking("side_clearance")
    if width is not None and groove_width is not None and not 0 < groove_width - width <= another_size:
        return not_applicable("the widths belong to different sizes")
    if side_clearance_written is not None and side_clearance_computed is not None:
        gap = abs(side_clearance_written - side_clearance_computed)
        if gap > agree_within:
            verdict = at_most(Length(gap), warning=agree_within)
            verdict.comparing(Length(side_clearance_written), Length(side_clearance_computed))
            return verdict.saying("The {ring_name} ring's side clearance is written as {value}, but groove less ring is {limit}.",
                                  "Measure ring and groove again and correct the one that is off.").at("side_clearance_written")
    if ring_name == "oil":
        verdict = within(Length(side_clearance), warning=(error_below, oil_warning_above))
        low, high = error_below, oil_warning_above
    else:
        verdict = within(Length(side_clearance), error=(error_below, error_above), warning=(error_below, warning_above),
                         note=(note_below, warning_above))
        low, high = usual_least, usual_most
    remedy = "Clean the groove and the ring's sides first; then order the next thinner ring, or have the groove cut." \
        if verdict.facts.get("side") == "below" else \
        "Order the ring of the groove's size; a worn groove is cut wider and takes a wider ring or a spacer."
    return verdict.telling(low=Length(low), high=Length(high)).saying(fix=remedy)


BACK = """
block: {bore: 4.030 in}
rings:
  top: {groove_root_diameter: %s, radial_thickness: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="ordering",
    says="The {ring_name} ring has {value} of back clearance; keep {limit}.",
    fix="Look whether ring and piston belong together.",
    source="geometry; limits common practice, no source",
    compares=("back_clearance",),
    points_at=("radial_thickness", "groove_root_diameter", "back_clearance"),
    when={"back_clearance": given},
    conforming=(BACK % ("3.656 in", "0.1832 in", ""), BACK % ("3.648 in", "0.1832 in", "")),
    nonconforming=(BACK % ("3.680 in", "0.1832 in", "# <-"), BACK % ("3.661 in", "0.1840 in", "# <-"), BACK % ("3.600 in", "0.150 in", "# <-"), """
        block: {bore: 4.030 in}
        rings:
          top: {groove_root_diameter: 3.656 in, radial_thickness: 0.1832 in, back_clearance: 0.020 in}  # <-
        """),
)
def ring_back_clearance_is_positive(
    back_clearance: Length, ring_name: Choice, back_clearance_written: Length = None,
    back_clearance_computed: Length = None, *,
    warning_below: Length = q("0.05 mm"), warning_above: Length = q("0.51 mm"), agree_within: Length = q("0.003 in"),
    usual_least: Length = q("0.003 in"), usual_most: Length = q("0.010 in"),
):
    """A ring that is deeper than its groove stands proud of the piston and is driven into the bore by it.

    Three to ten thousandths behind the ring are usual. Far more means a ring of another section, which fills slowly
    with gas and seals late.
    """
    if back_clearance_written is not None and back_clearance_computed is not None:
        gap = abs(back_clearance_written - back_clearance_computed)
        if gap > agree_within:
            verdict = at_most(Length(gap), warning=agree_within)
            verdict.comparing(Length(back_clearance_written), Length(back_clearance_computed))
            return verdict.saying(
                "The {ring_name} ring's back clearance is written as {value}, but bore, groove and ring leave {limit}.",
                "Measure groove and ring again and correct the one that is off.").at("back_clearance_written")
    if back_clearance < 0:
        verdict = at_least(Length(back_clearance), error=Length(0.0)).telling(proud=Length(-back_clearance))
        return verdict.saying("The {ring_name} ring stands {proud:up} proud of its groove.",
                              "Order rings of less radial thickness, by {proud:up} and a few thousandths more; do not assemble it.")
    verdict = within(Length(back_clearance), warning=(warning_below, warning_above))
    return verdict.saying("Behind the {ring_name} ring {value} are left; {usual_least:up} to {usual_most:down} is usual.",
                          "Look whether ring and piston belong together: the radial thickness is that of another section.")


WIDTH = """
rings:
  top: {width: %s, groove_width: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="ordering",
    says="The {ring_name} ring is {width} wide and its groove {groove_width}: they are of different sizes.",
    fix="Order the ring set of the piston's groove widths; 1/16 in is not 1.5 mm.",
    source="geometry",
    when={"groove_width": given},
    points_at=("width", "groove_width"),
    conforming=(WIDTH % ("1/16 in", "0.0640 in", ""), WIDTH % ("1.2 mm", "1.23 mm", "")),
    nonconforming=(WIDTH % ("1.2 mm", "1.53 mm", "# <-"), WIDTH % ("1/16 in", "1.53 mm", "# <-")),
)
def ring_width_matches_groove(
    width: Length, groove_width: Length, ring_name: Choice, *, another_size: Length = q("0.15 mm"),
):
    """A ring that is too wide does not go in, and one of the next size below is beaten to pieces in its groove.

    Inch and metric sizes lie close: a 1/16 in ring is 1.587 mm, and a 1.5 mm groove takes only the metric one.
    """
    play = groove_width - width
    if play <= 0:
        return require(False)
    return at_most(Length(play), another_size)


LAND = """
build: {induction: %s}
boost: {pressure: %s}
rings:
  top: {crown_to_groove: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The top ring sits {value} below the crown; {use} wants {limit}.",
    fix="Order pistons with the top ring at least {goal} down, or keep the charge and the shot small.",
    source="common practice, no source",
    when={"top_ring_crown_to_groove": given},
    points_at=("top_ring_crown_to_groove",),
    conforming=(LAND % ("turbocharged", "12 psi", "0.275 in", ""), "rings: {top: {crown_to_groove: 0.200 in}}"),
    nonconforming=(LAND % ("turbocharged", "12 psi", "0.190 in", "# <-"), LAND % ("turbocharged", "12 psi", "0.220 in", "# <-"), """
        nitrous: {power: 200 hp}
        rings:
          top: {crown_to_groove: 0.195 in}  # <-
        """),
)
def top_ring_sits_low_enough(
    top_ring_crown_to_groove: Length, induction: Choice = None, boost_pressure: Pressure = None, nitrous_power: Power = None, *,
    note_below: Length = q("0.250 in"), warning_below: Length = q("0.200 in"), natural_note_below: Length = q("0.150 in"),
    boost_above: Pressure = q("10 psi"),
):
    """The nearer the ring sits to the fire, the hotter it runs and the thinner the land that holds it.

    Short pistons put it at 0.20 to 0.22 in and live with moderate boost, which is noted; below that a warning.
    """
    boosted = induction in ("supercharged", "turbocharged") and (boost_pressure is None or boost_pressure > boost_above)
    nitrous = nitrous_power is not None and nitrous_power > 0
    if not boosted and not nitrous:
        return at_least(top_ring_crown_to_groove, note=natural_note_below).telling(use="any engine")
    return at_least(top_ring_crown_to_groove, warning=warning_below, note=note_below).telling(
        use="nitrous" if nitrous else "this boost")


SECOND = """
build: {induction: turbocharged}
pistons: {second_land: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The land between top and second ring is {value}; under boost keep {limit}.",
    fix="Order pistons with a thicker second land; thin rings leave room for it.",
    source="common practice, no source",
    when={"induction": ("supercharged", "turbocharged"), "piston_second_land": given},
    points_at=("piston_second_land",),
    conforming=SECOND % ("0.150 in", ""),
    nonconforming=SECOND % ("0.100 in", "# <-"),
)
def second_land_keeps_thickness(piston_second_land: Length, *, thinnest: Length = q("3.0 mm")):
    """Knock breaks the second land: the pressure gets behind the top ring, and the land is all that holds against it."""
    return at_least(piston_second_land, thinnest)


PORTS = """
build: {duty: %s}
pistons: {gas_ports: %s}  %s
"""


@rule(
    scope="cylinder",
    level="note",
    due="planning",
    says="Vertical gas ports clog with carbon in {duty} use.",
    fix="Order lateral gas ports, or none with a thin ring of the right back clearance; or plan to take the heads off and clear the ports.",
    source="common practice, no source",
    when={"piston_gas_ports": given},
    points_at=("piston_gas_ports",),
    conforming=(PORTS % ("drag_race", "vertical", ""), PORTS % ("street_strip", "lateral", "")),
    nonconforming=PORTS % ("street", "vertical", "# <-"),
)
def gas_ports_suit_use(piston_gas_ports: Choice, duty: Choice, *, lasting=("stock", "street", "street_strip", "marine", "towing")):
    """Holes from the crown bring pressure behind the top ring, and carbon in the same way.

    On an engine that is taken apart every season that is a wire and a minute a hole. Lateral ports in the groove stay open longer.
    """
    return require(piston_gas_ports != "vertical" or duty not in lasting)
