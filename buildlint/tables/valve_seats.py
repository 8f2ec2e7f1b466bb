"""Which metal a seat insert counts as when it gets hot. The numbers stand in the table of materials."""

# Insert irons and powder metals 12e-6 per kelvin, bronzes 17 to 18: from memory; a cobalt alloy lies with the irons.
SEAT_METAL = {
    "cast_iron": "ring_iron", "hardened_iron": "ring_iron", "powder_metal": "ring_iron", "ductile_iron": "ductile_iron",
    "cobalt_alloy": "ring_iron", "aluminum_bronze": "bronze", "nickel_bronze": "bronze", "beryllium_copper": "copper",
}
