"""How metals grow with heat, how stiff and how dense they are: one number for each metal, each with its source.

Formulas that need a metal name it here and nowhere else. The tables at the end say which metal a word of the spec
stands for. A written value of a spec, where its key exists, wins over these rows.
"""

from ..quantities import q

# Growth per kelvin of a part's own length, near room temperature to about 150 degC.
EXPANSION = {
    # Gray iron: handbooks give 10.6 (AISC Manual of Steel Construction) to 11.4 (Callister, Materials Science and
    # Engineering, Table B.6); between them.
    "gray_iron": 11.0e-6,
    "ductile_iron": 11.8e-6,  # ASM Handbook vol. 1, from memory; Callister Table B.6 gives 10.6 to 11.2
    "compacted_iron": 11.0e-6,  # as gray iron; from memory
    "ring_iron": 12.0e-6,  # alloyed ring irons; ASM Handbook vol. 1, from memory
    "steel": 11.7e-6,  # AISC Manual of Steel Construction; Callister Table B.6, steel 1020
    "steel_4340": 12.3e-6,  # Callister Table B.6, steels 4140 and 4340
    "martensitic_stainless": 11.0e-6,  # Callister Table B.6, 17-7 PH; nitrided ring steels 10.5, from memory
    "stainless_304": 17.2e-6,  # Callister Table B.6
    "austenitic_valve_steel": 17.0e-6,  # from memory
    "aluminum_356": 21.5e-6,  # Callister Table B.6; also taken for unnamed and die-cast aluminum and for 319, from memory
    "aluminum_6061": 23.6e-6,  # Callister Table B.6
    "aluminum_7075": 23.4e-6,  # Callister Table B.6
    "aluminum_2618": 22.3e-6,  # ASM Handbook vol. 2, from memory
    "aluminum_4032": 19.4e-6,  # ASM Handbook vol. 2, from memory
    "aluminum_silicon_12": 20.5e-6,  # AlSi12CuMgNi, 20 to 200 degC, 20.5 to 21.5 on alloy sheets
    "aluminum_silicon_17": 17.5e-6,  # 16 to 19 percent silicon, 16.5 to 18.5; from memory
    "magnesium": 26.0e-6,  # Callister Table B.6, AZ91D
    "titanium": 8.6e-6,  # Callister Table B.6, Ti-6Al-4V
    "bronze": 18.0e-6,  # Callister Table B.6, bearing bronze C93200
    "copper": 17.0e-6,  # Callister Table B.6, C11000
}

# Young's modulus. Callister, Materials Science and Engineering, Table B.2, except: gray and ductile iron and 7075
# ASM Handbook, from memory; steel of fasteners and rods 205, rounded from 200 to 210.
MODULUS = {
    "gray_iron": q("100 GPa"),
    "ductile_iron": q("169 GPa"),
    "compacted_iron": q("140 GPa"),
    "steel": q("205 GPa"),
    "steel_4340": q("205 GPa"),
    "aluminum_356": q("71 GPa"),
    "aluminum_6061": q("69 GPa"),
    "aluminum_7075": q("71.7 GPa"),
    "magnesium": q("45 GPa"),
    "titanium": q("114 GPa"),
}

SHEAR_MODULUS = {"steel": q("80 GPa"), "ductile_iron": q("65 GPa")}  # handbooks, from memory

DENSITY = {"steel": q("7850 kg/m^3"), "ring_iron": q("7200 kg/m^3")}  # Callister Table B.1; ring iron from memory

# The metal that a value of choice stands for.
CASTING_METAL = {
    "cast_iron": "gray_iron", "ductile_iron": "ductile_iron", "compacted_iron": "compacted_iron",
    "aluminum_cast": "aluminum_356", "aluminum_356_t6": "aluminum_356", "aluminum_319": "aluminum_356",
    "aluminum_die_cast": "aluminum_356", "aluminum_6082": "aluminum_6061", "aluminum_7075": "aluminum_7075",
    "steel": "steel", "steel_sheet": "steel", "magnesium": "magnesium",
}
CAP_METAL = {"cast_iron": "gray_iron", "ductile_iron": "ductile_iron", "billet_steel": "steel", "aluminum": "aluminum_6061"}
CRANK_METAL = {
    "cast_iron": "ductile_iron", "nodular_iron": "ductile_iron", "forged_1053": "steel", "forged_5140": "steel_4340",
    "forged_4340": "steel_4340", "billet_4340": "steel_4340",
}
ROD_METAL = {
    "steel": "steel_4340", "powder_steel": "steel", "cast_iron": "ductile_iron", "titanium": "titanium",
    "aluminum": "aluminum_7075",
}
PISTON_METAL = {
    "cast": "aluminum_silicon_12", "hypereutectic": "aluminum_silicon_17", "forged_4032": "aluminum_4032",
    "forged_2618": "aluminum_2618",
}
RING_METAL = {"cast_iron": "ring_iron", "ductile_iron": "ring_iron", "steel": "steel", "stainless": "martensitic_stainless"}
BORE_METAL = {
    "cast_iron": "gray_iron", "iron_sleeve": "gray_iron", "ductile_sleeve": "ductile_iron",
    "plated_aluminum": "aluminum_356", "aluminum_silicon": "aluminum_356",
}
