"""How hard an engine is used, as far as its air, fuel and compression ask: street, strip or race."""

# Stock, marine and towing engines breathe and burn like street engines; what is held long against them stands in
# the rules. Grouping: common practice, no source.
BREATHING = {
    "stock": "street", "street": "street", "marine": "street", "towing": "street", "street_strip": "strip",
    "road_race": "race", "oval_race": "race", "drag_race": "race",
}
STREET_DUTIES = tuple(duty for duty, kind in BREATHING.items() if kind == "street")
RACE_DUTIES = tuple(duty for duty, kind in BREATHING.items() if kind == "race")
SUSTAINED = ("marine", "towing")
