"""What each class of block, cap, crank, rod and piston is usually run to, as data for an engine of six liters.

Common practice, no source, and broad: a shop sets its own. Power scales with displacement; speed and pressure do not.
"""

from ..quantities import q

REFERENCE_DISPLACEMENT = q("6 L")
SMALL_ENGINE = q("3 L")  # below it the scaled rows are no more than a remark

# class: power and highest cylinder pressure
BLOCK = {
    "thin_wall_two_bolt": {"power": q("475 hp"), "pressure": q("8.0 MPa")},
    "production_two_bolt": {"power": q("500 hp"), "pressure": q("9.0 MPa")},
    "production_four_bolt": {"power": q("600 hp"), "pressure": q("10.0 MPa")},
    "cross_bolted_iron": {"power": q("700 hp"), "pressure": q("11.0 MPa")},
    "cross_bolted_aluminum": {"power": q("900 hp"), "pressure": q("12.0 MPa")},
    "aftermarket_iron": {"power": q("1300 hp"), "pressure": q("16.0 MPa")},
    "aftermarket_aluminum": {"power": q("1800 hp"), "pressure": q("17.0 MPa")},
}

CAP = {"cast_iron": q("500 hp"), "ductile_iron": q("700 hp")}  # billet caps have no row; aluminum caps follow their maker

# class: power and speed
CRANK = {
    "cast_iron": {"power": q("450 hp"), "speed": q("6000 rpm")},
    "nodular_iron": {"power": q("500 hp"), "speed": q("6500 rpm")},
    "forged_1053": {"power": q("550 hp"), "speed": q("6500 rpm")},
    "forged_5140": {"power": q("600 hp"), "speed": q("6800 rpm")},
    "forged_4340": {"power": q("1000 hp"), "speed": q("8000 rpm")},
    "billet_4340": {"power": q("1800 hp"), "speed": q("10000 rpm")},
}
ROD = {
    "production_cast": {"power": q("400 hp"), "speed": q("5800 rpm")},
    "production_powder": {"power": q("450 hp"), "speed": q("6200 rpm")},
    "production_forged": {"power": q("450 hp"), "speed": q("6200 rpm")},
    "forged_i_beam": {"power": q("600 hp"), "speed": q("7000 rpm")},
    "forged_h_beam": {"power": q("750 hp"), "speed": q("7500 rpm")},
    "forged_h_beam_7_16": {"power": q("1000 hp"), "speed": q("8500 rpm")},
    "billet_steel": {"power": q("1500 hp"), "speed": q("9500 rpm")},
    "titanium": {"power": q("1500 hp"), "speed": q("10000 rpm")},
    "aluminum": {"power": q("2500 hp"), "speed": q("9500 rpm")},
}
PISTON = {"cast": q("400 hp"), "hypereutectic": q("450 hp"), "forged_4032": q("700 hp"), "forged_2618": q("1500 hp")}
