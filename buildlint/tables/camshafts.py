"""Facts about camshafts, followers and their masses that formulas share; what a limit is stands with its rule."""

from ..quantities import q

# Check heights of the durations that cards give, at the lobe.
HEIGHT_050 = q("0.050 in")
HEIGHT_200 = q("0.200 in")

# Young's modulus and Poisson's ratio of what the lobe is cut in. Chilled and ductile iron: ASM Handbook vol. 1, from
# memory; steel: 207 GPa, the usual figure of contact tables.
CORE_MODULUS = {
    "cast_iron": q("150 GPa"), "ductile_iron": q("170 GPa"), "induction_hardened_iron": q("170 GPa"),
    "billet_steel": q("207 GPa"),
}
CORE_POISSON = {"cast_iron": 0.26, "ductile_iron": 0.28, "induction_hardened_iron": 0.28, "billet_steel": 0.30}
FOLLOWER_MODULUS = q("207 GPa")
FOLLOWER_POISSON = 0.30

# Crown of a flat lifter's foot where none is written. Handbook figures for crowned feet run from 1500 to 2540 mm with a
# lobe taper of 4 to 7 minutes of arc (Neale, The Tribology Handbook, 2nd ed., section B10); 50 in is common practice,
# no source, and gives the higher pressure.
USUAL_CROWN_RADIUS = q("50 in")

# How much lash an engine gains when it gets hot, by (block, head). A chart of the trade gives these; its figure for an
# all-iron engine has the other sign in other published ranges. Common practice, no source; the least certain numbers
# of this subject.
LASH_GROWTH = {
    ("iron", "iron"): q("-0.002 in"), ("iron", "aluminum"): q("0.006 in"), ("aluminum", "aluminum"): q("0.012 in"),
}

# Usual masses of one part where it was not weighed, for a pushrod V8 of middle size. From memory.
USUAL_MASS = {
    "valve": q("110 g"), "retainer": q("15 g"), "locks": q("6 g"), "springs": q("105 g"), "rocker": q("40 g"),
    "pushrod": q("60 g"), "lifter": q("110 g"),
}

# Rises above the cold setting when the engine is hot, for the model of lash growth; lifters as pushrods. Common practice, no source.
CASTING_RISE = q("70 K", "temperature_rise")
PUSHROD_RISE = q("80 K", "temperature_rise")
INTAKE_VALVE_RISE = q("110 K", "temperature_rise")
EXHAUST_VALVE_RISE = q("200 K", "temperature_rise")
