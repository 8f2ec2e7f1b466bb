"""How fast and how hard parts of each class are usually driven, as data. Common practice, no source; a shop sets its own."""

from ..quantities import q

# class of piston or rod: mean piston speed where careful builders begin to think, and where parts get old fast.
SPEED_NOTE = {
    "cast": q("17.8 m/s"), "hypereutectic": q("19.3 m/s"), "forged_4032": q("21.6 m/s"), "forged_2618": q("25.4 m/s"),
    "production_cast": q("17.8 m/s"), "production_powder": q("19.3 m/s"), "production_forged": q("19.3 m/s"),
    "forged_i_beam": q("21.6 m/s"), "forged_h_beam": q("25.4 m/s"), "forged_h_beam_7_16": q("25.4 m/s"), "billet_steel": q("25.4 m/s"),
    "aluminum": q("28.4 m/s"), "titanium": q("28.4 m/s"),
}
SPEED_WARNING = {
    "cast": q("20.3 m/s"), "hypereutectic": q("21.6 m/s"), "forged_4032": q("24.1 m/s"), "forged_2618": q("27.9 m/s"),
    "production_cast": q("20.3 m/s"), "production_powder": q("21.6 m/s"), "production_forged": q("21.6 m/s"),
    "forged_i_beam": q("24.1 m/s"), "forged_h_beam": q("27.9 m/s"), "forged_h_beam_7_16": q("27.9 m/s"), "billet_steel": q("27.9 m/s"),
    "aluminum": q("30.5 m/s"), "titanium": q("30.5 m/s"),
}

# class: peak acceleration at top where parts get old fast.
ACCELERATION = {
    "cast": q("2700 g", "acceleration"), "hypereutectic": q("3000 g", "acceleration"), "forged_4032": q("3600 g", "acceleration"),
    "forged_2618": q("5300 g", "acceleration"), "production_cast": q("2700 g", "acceleration"),
    "production_powder": q("3000 g", "acceleration"), "production_forged": q("3000 g", "acceleration"),
    "forged_i_beam": q("3600 g", "acceleration"), "forged_h_beam": q("5300 g", "acceleration"),
    "forged_h_beam_7_16": q("5300 g", "acceleration"), "billet_steel": q("6500 g", "acceleration"),
    "aluminum": q("6500 g", "acceleration"), "titanium": q("6500 g", "acceleration"),
}
