"""Valve heads in their bore: room, proportion, lift and throat."""

from buildlint.rulebook import *
from buildlint.tables.duties import BREATHING

HEADS = """
block: {bore: 4.030 in}
heads: {valve_layout: %s}
intake:
  valve: {head_diameter: %s}  %s
exhaust:
  valve: {head_diameter: %s}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Valve heads of {intake_valve_head_diameter} and {exhaust_valve_head_diameter} leave {value} in a bore of {block_bore}; keep "
         "{limit}.",
    fix="Take an exhaust valve of at most {exhaust_to_fit:down} with this intake valve, a larger bore, or guides set apart.",
    source="geometry; race practice leaves 3.5 to 4.5 mm, common practice, no source",
    points_at=("intake_valve_head_diameter", "exhaust_valve_head_diameter"),
    conforming=(HEADS % ("parallel", "2.02 in", "", "1.60 in"), HEADS % ("hemi", "2.25 in", "", "1.80 in")),
    nonconforming=(HEADS % ("parallel", "2.20 in", "# <-", "1.75 in"), HEADS % ("parallel", "2.15 in", "# <-", "1.65 in"),
                   HEADS % ("canted", "2.40 in", "# <-", "1.90 in")),
)
def valve_heads_fit_the_bore(
    block_bore: Length, intake_valve_head_diameter: Length, exhaust_valve_head_diameter: Length, head_valve_layout: Choice, *,
    error_below: Length = q("3.5 mm"), warning_below: Length = q("6 mm"), inclined_most: Fraction = q("1.02", "fraction"),
):
    """Side by side the heads must leave room for seats, bridge and wall, or they shroud each other and the bridge cracks.

    Valves that lean away from each other may together be a little wider than the bore.
    """
    together = intake_valve_head_diameter + exhaust_valve_head_diameter
    if head_valve_layout == "parallel":
        verdict = at_least(Length(block_bore - together), error=error_below, warning=warning_below)
        return _smaller(verdict, block_bore - warning_below, intake_valve_head_diameter)
    verdict = at_most(Fraction(together / block_bore), inclined_most)
    return _smaller(verdict, inclined_most * block_bore, intake_valve_head_diameter).saying(
        "Valve heads of {intake_valve_head_diameter} and {exhaust_valve_head_diameter} are together {value} of the bore of {block_bore}; "
        "inclined valves take up to {limit}.", verdict.fix)


def _smaller(verdict, both, intake):
    """Tell the exhaust valve that fits beside this intake valve, or the pair where none would that an engine breathes out of."""
    if both - intake < 0.6 * intake:
        verdict.saying(fix="Take heads of at most {both:down} together, the exhaust four fifths of the intake, a larger bore, or guides set apart.")
    return verdict.telling(exhaust_to_fit=Length(both - intake), both=Length(both))


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The exhaust valve is {value} of the intake valve; {low:up} to {high:down} is what heads have.",
    fix="With this bore an intake valve of {intake_low:up} to {intake_high:down} is usual, with this intake valve an exhaust valve of "
        "{exhaust_low:up} to {exhaust_high:down}.",
    source="Heywood, Internal Combustion Engine Fundamentals, table 6.1 (from memory); common practice, no source",
    points_at=("intake_valve_head_diameter", "exhaust_valve_head_diameter"),
    conforming=HEADS % ("parallel", "2.02 in", "", "1.60 in"),
    nonconforming=(HEADS % ("parallel", "1.60 in", "# <-", "2.02 in"), HEADS % ("parallel", "2.02 in", "# <-", "1.38 in"), HEADS % ("parallel", "1.50 in", "# <-", "1.30 in")),
)
def valve_sizes_are_proportioned(
    block_bore: Length, intake_valve_head_diameter: Length, exhaust_valve_head_diameter: Length, head_valve_layout: Choice = None,
    induction: Choice = None, nitrous_power: Power = None, *, exhaust_low: Fraction = q("0.70", "fraction"),
    exhaust_high: Fraction = q("0.90", "fraction"), boosted_high: Fraction = q("0.95", "fraction"),
    parallel_low: Fraction = q("0.41", "fraction"), parallel_usual: Fraction = q("0.53", "fraction"),
    inclined_low: Fraction = q("0.43", "fraction"), inclined_usual: Fraction = q("0.58", "fraction"),
):
    """Intake valves take the room that is there and exhaust valves three quarters of it; far off, a size is mistyped or of another head.

    Boost and nitrous want more exhaust. Heads that breathe well do so with 0.74 to 0.83; only far outside is said so. An
    intake valve too large for its bore is the rule on room's affair.
    """
    high = boosted_high if induction not in (None, "natural") or nitrous_power else exhaust_high
    least, most = (parallel_low, parallel_usual) if head_valve_layout in (None, "parallel") else (inclined_low, inclined_usual)
    share, of_bore = exhaust_valve_head_diameter / intake_valve_head_diameter, intake_valve_head_diameter / block_bore
    verdict = within(Fraction(share), note=(exhaust_low, high)).telling(low=exhaust_low, high=high)
    if share >= 1.0:
        verdict.level = "warning"
        return verdict.saying("The exhaust valve of {exhaust_valve_head_diameter} is as large as the intake valve of {intake_valve_head_diameter} or larger.",
                              "Look whether the two sides have changed places.")
    if verdict.kind == "pass":
        verdict = at_least(Fraction(of_bore), note=least).telling(low=least, high=most)
        verdict.saying("The intake valve is {value} of the bore; {low:up} to {high:down} is what heads have.")
    return verdict.telling(
        intake_low=Length(least * block_bore), intake_high=Length(most * block_bore),
        exhaust_low=Length(0.74 * intake_valve_head_diameter), exhaust_high=Length(0.83 * intake_valve_head_diameter))


OPEN = """
build: {duty: %s}
lifters: {kind: hydraulic_roller}
rockers: {ratio: 1.6}
intake:
  lobe: {lift: %s}  %s
  valve: {head_diameter: 2.020 in}
"""


@rule(
    scope="side",
    level="note",
    due="planning",
    says="The valve opens by {valve_lift}, {value} of its head diameter; {side} {limit} {effect}.",
    fix="A lift of {lift_low:up} to {lift_high:down} suits this valve.",
    source="common practice, no source",
    when={"lobe_lift": given, "valve_head_diameter": given},
    points_at=("lobe_lift", "valve_head_diameter"),
    conforming=(OPEN % ("street_strip", "0.350 in", ""), OPEN % ("drag_race", "0.500 in", "")),
    nonconforming=(OPEN % ("street_strip", "0.215 in", "# <-"), OPEN % ("street", "0.540 in", "# <-")),
)
def lift_suits_valve_diameter(
    valve_lift: Length, valve_head_diameter: Length, duty: Choice = None, *, least: Fraction = q("0.18", "fraction"),
    most={"street": q("0.42", "fraction"), "strip": q("0.42", "fraction"), "race": q("0.48", "fraction")},
):
    """At a quarter of its diameter a valve's curtain equals its head; much less leaves air outside, much more wears springs for little.

    Street valves lift 0.22 to 0.28 of their diameter (old mild engines a little less), race valves 0.30 to 0.40 and some beyond.
    """
    high = most[BREATHING.get(duty, "street")]
    share = valve_lift / valve_head_diameter
    verdict = within(Fraction(share), note=(least, high))
    over = share > least
    return verdict.telling(side="above" if over else "below",
                           effect="little flow comes for the wear" if over else "the valve never opens in full",
                           lift_low=Length(0.25 * valve_head_diameter),
                           lift_high=Length(0.9 * high * valve_head_diameter))


THROAT = """
%s:
  valve: {head_diameter: 2.020 in}
  port: {throat_diameter: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The throat is {value} of the valve head; {side} {limit} {effect}.",
    fix="A throat of {throat_low:up} to {throat_high:down} suits this valve.",
    source="common practice, no source",
    when={"port_throat_diameter": given},
    points_at=("port_throat_diameter",),
    conforming=(THROAT % ("intake", "1.820 in", ""), THROAT % ("exhaust", "1.780 in", "")),
    nonconforming=(THROAT % ("intake", "1.900 in", "# <-"), THROAT % ("exhaust", "1.640 in", "# <-")),
)
def valve_throat_suits_seat(
    port_throat_diameter: Length, valve_head_diameter: Length, *, most: Fraction = q("0.93", "fraction"),
    note_below: Fraction = q("0.82", "fraction"), usual_low: Fraction = q("0.88", "fraction"),
    usual_high: Fraction = q("0.91", "fraction"),
):
    """A throat cut too wide leaves no seat under the valve and no turn for the air; one left too tight wastes the valve.

    Most heads work best between 0.88 and 0.91; production throats are tighter and only noted when far below.
    """
    share = port_throat_diameter / valve_head_diameter
    verdict = within(Fraction(share), warning=(None, most), note=(note_below, most))
    over = share > usual_high
    return verdict.telling(side="above" if over else "below",
                           effect="the seat becomes too thin" if over else "the throat wastes the valve",
                           throat_low=Length(usual_low * valve_head_diameter),
                           throat_high=Length(usual_high * valve_head_diameter))


BRIDGE = """
build: {duty: %s}
heads: {seat_bridge: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="Between the two seats {value} of metal is left; keep {limit}.",
    fix="Take smaller inserts or valves, or a casting that is made for interlocking seats; on used castings test the bridge for cracks.",
    source="2 mm between inserts: common practice, no source",
    when={"head_seat_bridge": given},
    conforming=(BRIDGE % ("street", "0.12 in", ""), BRIDGE % ("street", "2 mm", "")),
    nonconforming=(BRIDGE % ("street", "0.060 in", "# <-"), BRIDGE % ("drag_race", "0.060 in", "# <-")),
)
def seat_bridge_keeps_metal(head_seat_bridge: Length, duty: Choice = None, *, least: Length = q("2 mm")):
    """The bridge between the seats is heated from both sides and cooled from none; a thin one cracks and lets the inserts go.

    Race heads run it thinner, or let the seats interlock, and are looked after: a note for them. The head's maker decides.
    """
    racing = duty in ("drag_race", "road_race", "oval_race")
    return at_least(head_seat_bridge, note=least) if racing else at_least(head_seat_bridge, warning=least)
