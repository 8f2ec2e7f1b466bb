"""One coil of a valve spring at its own height: load, rate, stress, natural frequency, solid height.

The words are those of the scope spring (outer, inner, innermost). A set of one coil whose data stand under ``spring``
is the outer one; what is known of the whole set is then known of it.
"""

from ..dimensions import Choice, Count, Density, Force, Fraction, Frequency, Length, Mass, Pressure, Ratio, Stiffness, Table
from ..mechanics import helical_spring
from ..mechanics.load_table import load_at
from ..mechanics.quotient import over
from ..quantities import q

# Oil-tempered silicon-chromium valve-spring wire (EN 10270-2): 79.5 GPa, 7850 kg/m3. A written value wins.
WIRE_SHEAR_MODULUS = q("79.5 GPa")
WIRE_DENSITY = q("7850 kg/m^3")


def coil_installed_height(spring_installed_height: Length, height_step: Length) -> Length:
    """A coil's own installed height: that of the outer less the steps of retainer and cup under it.

    Source: geometry.
    """
    return spring_installed_height - height_step


def coil_rate(rate: Stiffness) -> Stiffness:
    """A coil's own rate, as its sheet says.

    Source: the maker's sheet.
    """
    return rate


def coil_rate__of_table(load_table: Table, coil_installed_height: Length, valve_lift: Length) -> Stiffness:
    """A coil's own rate over its working travel, from its tested loads: load gained over height lost.

    Source: Hooke's law.
    """
    return over(load_at(load_table, coil_installed_height - valve_lift) - load_at(load_table, coil_installed_height), valve_lift)


def coil_seat_load(load_table: Table, coil_installed_height: Length) -> Force:
    """A coil's load with the valve shut, read from its own tested loads.

    Source: measurement.
    """
    return load_at(load_table, coil_installed_height)


def coil_seat_load__from_reference(reference_load: Force, reference_height: Length, coil_rate: Stiffness,
                                   coil_installed_height: Length) -> Force:
    """A coil's load with the valve shut from one load of its sheet and its rate.

    Source: Hooke's law.
    """
    return reference_load + coil_rate * (reference_height - coil_installed_height)


def coil_open_load(load_table: Table, coil_installed_height: Length, valve_lift: Length) -> Force:
    """A coil's load at full lift, read from its own tested loads.

    Source: measurement.
    """
    return load_at(load_table, coil_installed_height - valve_lift)


def coil_open_load__from_rate(coil_seat_load: Force, coil_rate: Stiffness, valve_lift: Length) -> Force:
    """A coil's load at full lift: F + k x lift.

    Source: Hooke's law.
    """
    return coil_seat_load + coil_rate * valve_lift


def coil_bind_margin(coil_installed_height: Length, valve_lift: Length, solid_height: Length) -> Length:
    """What is left of one coil at full lift before it goes solid.

    Source: geometry.
    """
    return coil_installed_height - valve_lift - solid_height


def coil_seat_load__of_set(spring_seat_load: Force, spring_count: Count) -> Force:
    """Load of the only coil with the valve shut: that of the set.

    Source: the set has one coil.
    """
    return spring_seat_load if spring_count == 1 else None


def coil_open_load__of_set(spring_open_load: Force, spring_count: Count) -> Force:
    """Load of the only coil at full lift: that of the set.

    Source: the set has one coil.
    """
    return spring_open_load if spring_count == 1 else None


def coil_bind_margin__by_wire(coil_installed_height: Length, valve_lift: Length, wire_solid_height: Length) -> Length:
    """What is left of one coil at full lift, its solid height estimated from the wire.

    Source: geometry; EN 13906-1:2013, 9.10.
    """
    return coil_installed_height - valve_lift - wire_solid_height


# -- the coil by its wire ------------------------------------------------------------------------------


def mean_coil_diameter(outside_diameter: Length, wire_diameter: Length) -> Length:
    """Diameter at the middle of the wire: outside diameter less one wire.

    Source: geometry.
    """
    return outside_diameter - wire_diameter


def mean_coil_diameter__from_inside(inside_diameter: Length, wire_diameter: Length) -> Length:
    """Diameter at the middle of the wire: inside diameter plus one wire.

    Source: geometry.
    """
    return inside_diameter + wire_diameter


def spring_index(mean_coil_diameter: Length, wire_diameter: Length) -> Ratio:
    """Mean coil diameter over wire diameter.

    Source: EN 13906-1:2013.
    """
    return over(mean_coil_diameter, wire_diameter)


def wire_rate(wire_diameter: Length, mean_coil_diameter: Length, active_coils: Ratio,
              wire_shear_modulus: Pressure = None) -> Stiffness:
    """Rate of a cylindrical coil by its wire: G d^4 / (8 D^3 n).

    Source: EN 13906-1:2013, 9.4.
    """
    modulus = WIRE_SHEAR_MODULUS if wire_shear_modulus is None else wire_shear_modulus
    return helical_spring.rate(wire_diameter, mean_coil_diameter, active_coils, modulus)


def wire_solid_height(wire_diameter: Length, total_coils: Ratio, ends: Choice) -> Length:
    """Solid height by the wire: total coils x wire with ground ends, 1.5 coils more without.

    Source: EN 13906-1:2013, 9.10.
    """
    return helical_spring.solid_height(wire_diameter, total_coils, ends == "ground")


def shear_stress_open(coil_open_load: Force, wire_diameter: Length, mean_coil_diameter: Length,
                      spring_index: Ratio) -> Pressure:
    """Shear stress of the wire at full lift, corrected for curvature: (w + 0.5) / (w - 0.75) x 8 F D / (pi d^3).

    Source: EN 13906-1:2013, clause 7 and 9.5.
    """
    return helical_spring.curvature_factor(spring_index) * helical_spring.shear_stress(
        coil_open_load, wire_diameter, mean_coil_diameter)


def stress_share_open(shear_stress_open: Pressure, wire_tensile_strength: Pressure) -> Fraction:
    """Corrected shear stress at full lift over the wire's tensile strength.

    Source: EN 13906-1:2013.
    """
    return over(shear_stress_open, wire_tensile_strength)


def shear_stress_solid(coil_seat_load: Force, wire_rate: Stiffness, coil_installed_height: Length, solid_height: Length,
                       wire_diameter: Length, mean_coil_diameter: Length) -> Pressure:
    """Shear stress of the wire with the coil squeezed solid, not corrected for curvature.

    Load then: seat load plus rate x travel to solid. Source: EN 13906-1:2013, 9.5.
    """
    load = coil_seat_load + wire_rate * (coil_installed_height - solid_height)
    return helical_spring.shear_stress(load, wire_diameter, mean_coil_diameter)


def stress_share_solid(shear_stress_solid: Pressure, wire_tensile_strength: Pressure) -> Fraction:
    """Shear stress with the coil solid over the wire's tensile strength; up to 0.56 it takes no set.

    Source: EN 13906-1:2013, 10.1.1.
    """
    return over(shear_stress_solid, wire_tensile_strength)


def natural_frequency(wire_diameter: Length, mean_coil_diameter: Length, active_coils: Ratio,
                      wire_shear_modulus: Pressure = None, wire_density: Density = None) -> Frequency:
    """First natural frequency of a cylindrical coil, both ends held: d / (2 pi n D^2) sqrt(G / (2 rho)).

    Source: EN 13906-1:2013, 9.12.
    """
    modulus = WIRE_SHEAR_MODULUS if wire_shear_modulus is None else wire_shear_modulus
    density = WIRE_DENSITY if wire_density is None else wire_density
    return helical_spring.first_frequency(wire_diameter, mean_coil_diameter, active_coils, modulus, density)


def natural_frequency__of_mass(coil_rate: Stiffness, mass: Mass, active_coils: Ratio, total_coils: Ratio) -> Frequency:
    """First natural frequency of a coil from its rate and the mass of its active coils: half the root of rate over mass.

    Source: Shigley, Mechanical Engineering Design, section 10-8.
    """
    return helical_spring.first_frequency_of_mass(coil_rate, over(mass * active_coils, total_coils))


def free_length_by_rate(coil_installed_height: Length, coil_seat_load: Force, coil_rate: Stiffness) -> Length:
    """Free length that load and rate of a cylindrical coil ask for: installed height plus load / rate.

    Source: Hooke's law.
    """
    return coil_installed_height + over(coil_seat_load, coil_rate)
