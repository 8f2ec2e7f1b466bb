"""Flow of the exhaust against the intake, and whether the table reaches the lift."""

from buildlint.numeric import interpolate
from buildlint.rulebook import *

PAIR = """
build: {induction: %s}
intake:
  port: {flow_table: [[0.200 in, 125 ft^3/min], [0.500 in, 250 ft^3/min]]}
exhaust:
  port: {flow_table: [[0.200 in, 95 ft^3/min], [0.500 in, %s ft^3/min]]}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The exhaust port flows {value} of the intake port at the same lift; {side} {limit} {effect}.",
    fix="Compare bare ports or say what was on the bench; a weak exhaust wants port work or a longer exhaust lobe.",
    source="75 to 80 percent for natural engines, common practice, no source",
    points_at=("exhaust_port_flow_table", "exhaust_port_flow"),
    conforming=(PAIR % ("natural", 190, ""), PAIR % ("turbocharged", 215, "")),
    nonconforming=(PAIR % ("natural", 150, "# <-"), PAIR % ("natural", 240, "# <-")),
)
def exhaust_flow_suits_intake(
    intake_port_flow_table: Table = None, exhaust_port_flow_table: Table = None, intake_port_flow: Flow = None,
    exhaust_port_flow: Flow = None, induction: Choice = None, nitrous_power: Power = None, *,
    least: Fraction = q("0.65", "fraction"),
    most: Fraction = q("0.90", "fraction"), boosted_least: Fraction = q("0.68", "fraction"),
    boosted_most: Fraction = q("0.95", "fraction"),
):
    """An exhaust that flows too little is helped by the cam; one that flows too well was mostly measured with a pipe on it.

    Compared at the highest lift both tables reach, else by the two best figures. Boost and nitrous want more exhaust.
    """
    share = None
    if intake_port_flow_table and exhaust_port_flow_table:
        lift = min(max(intake_port_flow_table)[0], max(exhaust_port_flow_table)[0])
        share = interpolate(float(lift), exhaust_port_flow_table) / interpolate(float(lift), intake_port_flow_table)
    if (share is None or share != share) and intake_port_flow and exhaust_port_flow:
        share = exhaust_port_flow / intake_port_flow
    if share is None or share != share:
        return not_applicable("one of the flows is not written")
    more = induction not in (None, "natural") or nitrous_power
    low, high = (boosted_least, boosted_most) if more else (least, most)
    over = share > low
    return within(Fraction(share), note=(low, high)).telling(
        side="above" if over else "below",
        effect="a pipe or stub on the bench flatters it" if over else "the exhaust holds the engine back")


REACH = """
lifters: {kind: hydraulic_roller}
rockers: {ratio: 1.6}
intake:
  lobe: {lift: %s}
  port: {flow_table: [[0.100 in, 65 ft^3/min], [0.300 in, 185 ft^3/min], [0.500 in, 250 ft^3/min], [0.600 in, %s ft^3/min]]}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="The flow table ends at {reached}, but the valve opens to {valve_lift}.",
    fix="Flow the head to full lift: some ports stop or fall off there.",
    source="common practice, no source",
    when={"port_flow_table": given},
    points_at=("port_flow_table",),
    conforming=(REACH % ("0.350 in", 260, ""), REACH % ("0.380 in", 262, "")),
    nonconforming=(REACH % ("0.420 in", 265, "# <-"), REACH % ("0.375 in", 236, "# <-")),
)
def flow_table_reaches_the_lift(
    port_flow_table: Table, valve_lift: Length, *, short_by: Length = q("0.025 in"), wasted_by: Length = q("0.080 in"),
    fall: Fraction = q("0.02", "fraction"),
):
    """A table that ends before the valve does leaves the best part unknown; one that peaks long before it shows lift wasted.

    Some ports fall off near full lift and still gain by it, since the valve passes its best lift twice.
    """
    rows = sorted(port_flow_table)
    end, best = rows[-1], max(rows, key=lambda row: row[1])
    if end[0] < valve_lift - short_by:
        return require(False).telling(reached=Length(end[0]))
    if best[0] < valve_lift - wasted_by and end[1] < best[1] * (1 - fall):
        return require(False).telling(reached=Length(best[0])).saying(
            "The port flows best at {reached}, but the valve opens to {valve_lift}.",
            "Less lift with the same area under the curve, or work on the port, would spare the springs.")
    return passes()
