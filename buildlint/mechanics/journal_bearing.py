"""The oil film of a plain bearing: how close the journal comes to the shell, and how much oil leaks past it.

Steady load and speed, so for a big end or a main only an order of size, good for comparing two builds: the true
least film of a turning load needs a calculation over the whole cycle.
"""

from ..numeric import PI, exp, interpolate, least, log, sqrt, where
from ..tables.journal_bearing import BEARING_NUMBERS, LENGTH_RATIOS

DEEPEST = 0.98  # eccentricity at which the table ends


def bearing_number(viscosity, speed, unit_load, diameter, clearance):
    """Sommerfeld's bearing number S = (r/c)^2 mu N / P.

    viscosity Pa*s, speed rad/s (N = speed / 2 pi), unit_load Pa on length x diameter, diameter and diametral
    clearance in m. Source: Shigley, Mechanical Engineering Design, 9th ed., Eq. 12-7.
    """
    return (diameter / clearance) ** 2 * viscosity * (speed / (2 * PI)) / unit_load


def eccentricity(number, length_ratio):
    """Eccentricity over radial clearance for a bearing number and a length over diameter.

    Straight lines between logarithms of the table's numbers. A bearing longer than its diameter counts as just as
    long; NaN for one shorter than a quarter of it. Lighter loads than the table's follow S x eccentricity = constant;
    heavier ones than its end count as its end, 0.98.
    Source: Raimondi and Boyd, Transactions ASLE 1 (1958), 159-209; table computed as told there.
    """
    ratio, wanted = log(least(length_ratio, 1.0)), log(number)
    rows = [(deep, interpolate(ratio, [(log(at), log(found)) for at, found in zip(LENGTH_RATIOS, found_at)]))
            for deep, found_at in BEARING_NUMBERS.items()]
    result = rows[0][0] * exp(rows[0][1] - wanted)
    for (shallow, above), (deep, below) in zip(rows, rows[1:]):
        share = (wanted - above) / (below - above)
        gap = exp(log(1 - shallow) + share * (log(1 - deep) - log(1 - shallow)))
        result = where(wanted < above, 1 - gap, result)
    return where(wanted < rows[-1][1], DEEPEST, result)


def least_film(load, viscosity, speed, diameter, length, clearance):
    """Least thickness of the oil film, m: half the clearance less the eccentricity.

    load N, viscosity Pa*s, speed rad/s, diameter, length and diametral clearance in m. Where the load is beyond the
    table it is at most this thick. Source: as eccentricity.
    """
    number = bearing_number(viscosity, speed, load / (length * diameter), diameter, clearance)
    return clearance / 2 * (1 - eccentricity(number, length / diameter))


def short_bearing_load(deep, viscosity, speed, diameter, length, clearance):
    """Load a short bearing carries at an eccentricity ratio ``deep``, N; a second opinion below about 0.6.

    W = mu U L^3 / (4 c^2) x e / (1 - e^2)^2 x sqrt(16 e^2 + pi^2 (1 - e^2)), c the radial clearance, U the surface speed.
    Source: Ocvirk, NACA TN 2808 (1952), from memory.
    """
    surface_speed, radial = speed * diameter / 2, clearance / 2
    shape = deep / (1 - deep**2) ** 2 * sqrt(16 * deep**2 + PI**2 * (1 - deep**2))
    return viscosity * surface_speed * length**3 / (4 * radial**2) * shape


def groove_fed_flow(pressure, viscosity, diameter, clearance, land, deep):
    """Oil that leaks out of a bearing fed by a groove round its middle, m3/s, both sides together.

    pi p r c^3 / (3 mu l) x (1 + 1.5 e^2); r and c radius and radial clearance, l the land on each side, m; e the
    eccentricity ratio. Source: Shigley, Mechanical Engineering Design, 9th ed., section 12-12, from memory.
    """
    radius, radial = diameter / 2, clearance / 2
    return PI * pressure * radius * radial**3 / (3 * viscosity * land) * (1 + 1.5 * deep**2)
