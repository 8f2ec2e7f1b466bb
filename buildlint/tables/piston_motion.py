"""How fast and how hard parts of each class are usually driven, as data. Common practice, no source; a shop sets its own."""

from ..quantities import q

# class of piston or rod: mean piston speed where careful builders begin to think, and where parts get old fast, m/s.
SPEED_NOTE = {
    "cast": 17.8, "hypereutectic": 19.3, "forged_4032": 21.6, "forged_2618": 25.4, "production_cast": 17.8, "production_powder": 19.3,
    "production_forged": 19.3, "forged_i_beam": 21.6, "forged_h_beam": 25.4, "forged_h_beam_7_16": 25.4, "billet_steel": 25.4,
    "aluminum": 28.4, "titanium": 28.4,
}
SPEED_WARNING = {
    "cast": 20.3, "hypereutectic": 21.6, "forged_4032": 24.1, "forged_2618": 27.9, "production_cast": 20.3, "production_powder": 21.6,
    "production_forged": 21.6, "forged_i_beam": 24.1, "forged_h_beam": 27.9, "forged_h_beam_7_16": 27.9, "billet_steel": 27.9,
    "aluminum": 30.5, "titanium": 30.5,
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
