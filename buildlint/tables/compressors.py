"""How good compressors and charge coolers are, by kind: the middle of the usual band, its top, and what is beyond belief.

Bands are those printed by sellers of all kinds, rounded; common practice, no source. Positive-displacement blowers
deliver less than they sweep: leakage back and heat forward nearly cancel, and one factor on the swept volume is left.
"""

from ..quantities import q

DISPLACING = ("two_lobe", "high_helix", "twin_screw")  # moves a fixed volume each turn
BELT_DRIVEN = (*DISPLACING, "centrifugal")

USUAL_EFFICIENCY = {"two_lobe": 0.50, "high_helix": 0.62, "twin_screw": 0.72, "centrifugal": 0.72, "turbo": 0.72}

# Best point of good ones, and the best that is printed anywhere.
GOOD_EFFICIENCY = {"two_lobe": q("0.55", "fraction"), "high_helix": q("0.65", "fraction"), "twin_screw": q("0.78", "fraction"),
                   "centrifugal": q("0.78", "fraction"), "turbo": q("0.78", "fraction")}
BEST_EFFICIENCY = {"two_lobe": q("0.60", "fraction"), "high_helix": q("0.70", "fraction"), "twin_screw": q("0.80", "fraction"),
                   "centrifugal": q("0.80", "fraction"), "turbo": q("0.80", "fraction")}

# Effectiveness of charge coolers where none is written. Ice water is judged by the temperature of its water.
USUAL_EFFECTIVENESS = {"air_to_air": 0.68, "air_to_water": 0.78, "ice_water": 0.78}

# Delivery of a displacing blower on the volume it sweeps, times the engine's own filling; with a cooler behind it.
DELIVERY = {"two_lobe": 0.75, "high_helix": 0.92, "twin_screw": 0.92}
DELIVERY_COOLED = {"two_lobe": 0.75, "high_helix": 0.85, "twin_screw": 0.85}
