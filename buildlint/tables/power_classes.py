"""What each class of block, cap, crank, rod and piston is usually run to, as data for an engine of six liters.

Common practice, no source, and broad: a shop sets its own. Power scales with displacement; speed and pressure do not.
"""

from ..quantities import q

REFERENCE_DISPLACEMENT = q("6 L")
SMALL_ENGINE = q("3 L")  # below it the scaled rows are no more than a remark

# class: (power, highest cylinder pressure)
BLOCK = {
    "thin_wall_two_bolt": (q("475 hp"), q("8.0 MPa")),
    "production_two_bolt": (q("500 hp"), q("9.0 MPa")),
    "production_four_bolt": (q("600 hp"), q("10.0 MPa")),
    "cross_bolted_iron": (q("700 hp"), q("11.0 MPa")),
    "cross_bolted_aluminum": (q("900 hp"), q("12.0 MPa")),
    "aftermarket_iron": (q("1300 hp"), q("16.0 MPa")),
    "aftermarket_aluminum": (q("1800 hp"), q("17.0 MPa")),
}

CAP = {"cast_iron": q("500 hp"), "ductile_iron": q("700 hp")}  # billet caps have no row; aluminum caps follow their maker

# class: (power, speed)
CRANK = {
    "cast_iron": (q("450 hp"), q("6000 rpm")),
    "nodular_iron": (q("500 hp"), q("6500 rpm")),
    "forged_1053": (q("550 hp"), q("6500 rpm")),
    "forged_5140": (q("600 hp"), q("6800 rpm")),
    "forged_4340": (q("1000 hp"), q("8000 rpm")),
    "billet_4340": (q("1800 hp"), q("10000 rpm")),
}
ROD = {
    "production_cast": (q("400 hp"), q("5800 rpm")),
    "production_powder": (q("450 hp"), q("6200 rpm")),
    "production_forged": (q("450 hp"), q("6200 rpm")),
    "forged_i_beam": (q("600 hp"), q("7000 rpm")),
    "forged_h_beam": (q("750 hp"), q("7500 rpm")),
    "forged_h_beam_7_16": (q("1000 hp"), q("8500 rpm")),
    "billet_steel": (q("1500 hp"), q("9500 rpm")),
    "titanium": (q("1500 hp"), q("10000 rpm")),
    "aluminum": (q("2500 hp"), q("9500 rpm")),
}
PISTON = {"cast": q("400 hp"), "hypereutectic": q("450 hp"), "forged_4032": q("700 hp"), "forged_2618": q("1500 hp")}
