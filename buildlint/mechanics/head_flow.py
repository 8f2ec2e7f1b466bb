"""What a flow bench says of a head: speeds and coefficients behind its figures, and the mean over a lift curve."""

from ..numeric import PI, interpolate, log, sin, sqrt
from ..quantities import q

USUAL_DEPRESSION = q("28 inH2O")
BENCH_DENSITY = q("1.204 kg/m^3")  # dry air of 20 degC at sea level

# Shape of the lift curve sin^n of a cam event where its durations are not known: between sin^2 of gentle and sin^1.2 of
# full lobes. Common practice, no source.
USUAL_LOBE = 1.5
HEIGHT_050 = q("0.050 in")
STEPS = 60
BEYOND = 1.0  # m, more than any valve opens


def at_usual_depression(flow, depression):
    """The flow a bench would read at 28 inches of water: flow x sqrt(28 / depression). Source: Bernoulli."""
    return flow * sqrt(USUAL_DEPRESSION / depression)


def bench_speed(depression):
    """Speed of air falling through the bench's depression, sqrt(2 dp / density): 353 ft/s at 28 inches. Pa -> m/s."""
    return sqrt(2 * depression / BENCH_DENSITY)


def effective_area(flow, depression):
    """Area of an ideal nozzle that passes the flow at the depression. m3/s, Pa -> m2. Source: Bernoulli."""
    return flow / bench_speed(depression)


def curtain_coefficient(flow, depression, head_diameter, lift):
    """Effective area over the curtain pi D L under the valve. SI -> ratio. Source: Heywood, section 6.3."""
    return effective_area(flow, depression) / (PI * head_diameter * lift)


def lobe_exponent(lobe_lift, advertised_duration, duration_at_050):
    """Exponent n of a lift curve sin^n that is open for the advertised duration and at 0.050 in for the other.

    m, rad. Source: definition; the lift at the advertised height is taken as nothing.
    """
    return log(HEIGHT_050 / lobe_lift) / log(sin(PI / 2 * (1 - duration_at_050 / advertised_duration)))


def mean_coefficient(table, depression, head_diameter, valve_lift, exponent):
    """Mean effective area over the open time of a sin^n lift curve, over the area of the valve head.

    ``table`` holds (lift, flow) in SI; below its first lift the flow falls in a straight line to nothing, above its
    last it stays. Ratio. Source: definition, Taylor, The Internal-Combustion Engine, vol. 1, ch. 6 (from memory).
    """
    rows = [(0.0, 0.0), *((float(lift), float(flow)) for lift, flow in table if lift > 0)]
    rows.append((BEYOND, max(rows)[1]))
    total = sum(interpolate(valve_lift * sin(PI * (step + 0.5) / STEPS) ** exponent, rows) for step in range(STEPS))
    return effective_area(total / STEPS, depression) / (PI / 4 * head_diameter**2)
