"""Figures from the flow bench: at which depression and bore, and whether they can be."""

from buildlint.mechanics.head_flow import at_usual_depression, curtain_coefficient
from buildlint.numeric import PI
from buildlint.rulebook import *

LOADING_UNIT = 0.7315  # m/s that one ft^3/min on a square inch is


FLOWED = """
build: {stage: ordering}
heads: {flow_bench: {%s}}
intake:
  port: {flow: 260 ft^3/min}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Flow figures are written without the depression they were taken at; 10, 25 and 28 inches of water are all in use.",
    fix="Write heads.flow_bench.depression from the sheet, such as 28 inH2O.",
    source="common practice, no source",
    points_at=("port_flow", "port_flow_table"),
    conforming=FLOWED % ("depression: 28 inH2O", ""),
    nonconforming=FLOWED % ("bore: 4.030 in", "# <-"),
)
def flow_figures_state_test_pressure(
    side_name: Choice, port_flow: Flow = None, port_flow_table: Table = None, head_flow_bench_depression: Pressure = None,
    intake_port_flow: Flow = None, intake_port_flow_table: Table = None,
):
    """A port that flows 260 at 28 inches flows 155 at 10: without the depression the number says nothing."""
    if port_flow is None and port_flow_table is None:
        return not_applicable("no flow is written")
    if side_name == "exhaust" and (intake_port_flow is not None or intake_port_flow_table is not None):
        return not_applicable("asked once, of the intake")
    if head_flow_bench_depression is None:
        return wanting("head_flow_bench_depression").at("port_flow", "port_flow_table")
    return passes()


TABLE = """
heads: {flow_bench: {depression: %s}}
intake:
  valve: {head_diameter: 2.020 in}
  port: {flow_table: [[0.100 in, %s ft^3/min], [0.200 in, 125 ft^3/min], [0.300 in, 185 ft^3/min], [0.400 in, %s ft^3/min], [0.500 in, %s ft^3/min]]}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{per_inch} ft^3/min on each square inch of valve at 28 inches of water: no port passes {best_known}.",
    fix="Look at the depression and the unit of the flow first (ft^3/min or L/s, 10 or 28 inches); then flow the head again on the bore of "
        "this build.",
    source="Heywood, Internal Combustion Engine Fundamentals, section 6.3; limits common practice, no source",
    points_at=("port_flow_table", "port_flow"),
    conforming=(TABLE % ("28 inH2O", 65, 228, 250, ""), TABLE % ("28 inH2O", 65, 228, 226, "")),
    nonconforming=(TABLE % ("10 inH2O", 65, 228, 250, "# <-"), TABLE % ("28 inH2O", 65, 228, 205, "# <-"),
                   TABLE % ("28 inH2O", 65, 228, 222, "# <-"), TABLE % ("28 inH2O", 85, 228, 250, "# <-")),
)
def flow_figures_are_possible(
    valve_head_diameter: Length, side_name: Choice, head_flow_bench_depression: Pressure = None, port_flow_table: Table = None,
    port_flow: Flow = None, *,
    coefficient_error: Ratio = q("0.95", "ratio"), coefficient_warning: Ratio = q("0.80", "ratio"),
    low_lift: Fraction = q("0.15", "fraction"),
    loading_error={"intake": q("84.1 m/s"), "exhaust": q("102.4 m/s")}, fall_warning: Fraction = q("0.02", "fraction"),
    fall_error: Fraction = q("0.05", "fraction"),
):
    """No port passes more than its curtain of air at the bench's speed, and none should pass less as the valve opens further.

    Coefficients over the curtain run 0.65 to 0.75 at low lift; above 0.80 there the lift was read wrong, above 0.95
    anywhere the depression was another. Good heads pass 65 to 95 ft^3/min on each square inch of intake valve at 28 inches
    of water and the best of today 105 to 110; a throat of 0.91 of the valve at a coefficient of 0.95 would pass 115, which
    is 84.1 m/s over the head of the valve. Exhaust valves with a pipe recover pressure and show up to 135. A fall with lift means the flow breaks away from the short side, or a leak.
    """
    if head_flow_bench_depression is None:
        return not_applicable("the depression is not written, which has a rule of its own")
    rows = sorted((lift, flow) for lift, flow in port_flow_table or () if lift > 0)
    flows = [flow for _, flow in rows] + ([port_flow] if port_flow is not None else [])
    if not flows:
        return not_applicable("no flow is written")
    found, best = [], 0.0
    for lift, flow in rows:
        coefficient = curtain_coefficient(flow, head_flow_bench_depression, valve_head_diameter, lift)
        low = lift / valve_head_diameter < low_lift
        found.append(at_most(Ratio(coefficient), error=coefficient_error, warning=coefficient_warning if low else None).saying(
            "At {at_lift} the port would pass {value} of what its curtain can; real ports reach {coefficient_warning} at low lift and "
            "never {coefficient_error}.").telling(at_lift=Length(lift)))
        if best > 0:
            found.append(at_most(Fraction(1 - flow / best), error=fall_error, warning=fall_warning).saying(
                "At {at_lift} the flow is {value} less than at a smaller lift.").telling(at_lift=Length(lift)))
        best = max(best, flow)
    loading = at_usual_depression(max(flows), head_flow_bench_depression) / (PI / 4 * valve_head_diameter**2)
    found.append(at_most(Speed(loading), error=loading_error[side_name]).telling(
        per_inch=f"{loading / LOADING_UNIT:.0f}", best_known=f"{loading_error[side_name] / LOADING_UNIT:.0f}"))
    return max(found, key=_rank)


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0


BORE = """
block: {bore: 4.030 in}
heads: {flow_bench: {depression: 28 inH2O, bore: %s}}  %s
intake:
  port: {flow: 260 ft^3/min}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The head was flowed on a bore of {head_flow_bench_bore}; this engine has {block_bore}.",
    fix="Flow it on {block_bore}: the wall beside the valves shrouds or frees them, and the figure moves by several percent.",
    source="common practice, no source",
    when={"side_name": ("intake",), "head_flow_bench_bore": given},
    points_at=("head_flow_bench_bore",),
    conforming=(BORE % ("4.000 in", ""), BORE % ("4.125 in", "")),
    nonconforming=(BORE % ("4.155 in", "# <-"), BORE % ("3.900 in", "# <-")),
)
def flow_bench_bore_matches(head_flow_bench_bore: Length, block_bore_smallest: Length, *, within_bore: Length = q("2.5 mm")):
    """Figures from a larger bore flatter the head, since the cylinder wall stands further from the valve."""
    return at_most(Length(abs(head_flow_bench_bore - block_bore_smallest)), within_bore)
