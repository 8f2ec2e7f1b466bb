"""One set of plain bearings: clearance from its parts and with heat, crush, load and oil film."""

from ..dimensions import Choice, Force, Length, Mass, Pressure, Ratio, Rpm, Temperature, Viscosity
from ..mechanics import journal_bearing
from ..mechanics.expansion import REFERENCE_TEMPERATURE, growth
from ..numeric import PI, greatest, least, sqrt
from ..quantities import q
from ..tables.materials import CAP_METAL, CASTING_METAL, CRANK_METAL, MODULUS, ROD_METAL

POISSON = 0.3
HOT_RISE = q("80 K", "temperature_rise")  # of block, rods and crank above 20 degC; common practice, no source
HOUSING_OVER_JOURNAL = 1.075  # where no housing bore is written; shells of usual wall
GROOVED_SHARE = 0.6  # of the width that still carries where the loaded half is grooved; common practice, no source
LOAD_SHARE = {"rod": 1.0, "main": 0.5}  # of one pin's load that the bearing carries; of a main half of its heavier neighbor


def clearance(housing_bore: Length, upper_shell_thickness: Length, lower_shell_thickness: Length, journal_diameter: Length,
              housing_growth_by_crush: Length = None) -> Length:
    """Oil clearance: housing bore less both shells less the journal, and what the crush of the shells opens the housing.

    m. Source: arithmetic.
    """
    gap = housing_bore - (upper_shell_thickness + lower_shell_thickness) - journal_diameter
    return gap if housing_growth_by_crush is None else gap + housing_growth_by_crush


def clearance__of_shell_inside(shell_inside_diameter: Length, journal_diameter: Length) -> Length:
    """Oil clearance: inside of the fitted shells less the journal.

    m. Source: arithmetic.
    """
    return shell_inside_diameter - journal_diameter


def clearance_ratio(clearance: Length, journal_diameter: Length) -> Ratio:
    """Clearance for each unit of journal diameter.

    Source: definition.
    """
    return clearance / journal_diameter


def _housing_metals(bearing_name, block_material, block_main_caps, rod_material):
    """The metals round a bearing; square to the parting line block and cap count half each."""
    if bearing_name == "rod":
        return [ROD_METAL[rod_material]] if rod_material in ROD_METAL else []
    metals = [CASTING_METAL[block_material]] if block_material in CASTING_METAL else []
    if bearing_name == "main" and metals and block_main_caps in CAP_METAL:
        metals.append(CAP_METAL[block_main_caps])
    return metals


def _gain(rise, bearing_name, journal, gap, block_material, block_main_caps, rod_material, crank_material, housing, walls):
    metals = _housing_metals(bearing_name, block_material, block_main_caps, rod_material)
    if not metals:
        return None
    if housing is None or walls is None:
        housing = HOUSING_OVER_JOURNAL * journal
        walls = housing - journal - gap
    opened = sum(growth(metal, housing, rise) for metal in metals) / len(metals)
    return opened - growth("steel", walls, rise) - growth(CRANK_METAL.get(crank_material, "steel"), journal, rise)


def clearance_hot(
    bearing_name: Choice, clearance: Length, journal_diameter: Length, block_material: Choice = None,
    block_main_caps: Choice = None, rod_material: Choice = None, crank_material: Choice = None, housing_bore: Length = None,
    upper_shell_thickness: Length = None, lower_shell_thickness: Length = None,
) -> Length:
    """Clearance with everything 80 K above room temperature: what the housing grows less what shells and journal grow.

    Where housing and shells are not written, a housing of 1.075 journal diameters is taken. m.
    Source: thermal expansion by the table of materials; the 80 K are common practice, no source.
    """
    walls = _walls(upper_shell_thickness, lower_shell_thickness)
    gain = _gain(HOT_RISE, bearing_name, journal_diameter, clearance, block_material, block_main_caps, rod_material,
                 crank_material, housing_bore, walls)
    return None if gain is None else clearance + gain


def clearance_cold_start(
    bearing_name: Choice, clearance: Length, journal_diameter: Length, ambient_coldest: Temperature,
    block_material: Choice = None, block_main_caps: Choice = None, rod_material: Choice = None, crank_material: Choice = None,
    housing_bore: Length = None, upper_shell_thickness: Length = None, lower_shell_thickness: Length = None,
) -> Length:
    """Clearance at the coldest start, everything as cold as the air.

    m, K. Source: thermal expansion by the table of materials.
    """
    walls = _walls(upper_shell_thickness, lower_shell_thickness)
    gain = _gain(ambient_coldest - REFERENCE_TEMPERATURE, bearing_name, journal_diameter, clearance, block_material,
                 block_main_caps, rod_material, crank_material, housing_bore, walls)
    return None if gain is None else clearance + gain


def _walls(upper, lower):
    return None if upper is None or lower is None else upper + lower


# -- crush ------------------------------------------------------------------------------------------------


def shell_hoop_stress(crush_height: Length, housing_bore: Length) -> Pressure:
    """Stress round a shell that is pressed home: modulus x 2 crush / (pi x housing bore).

    ``crush_height`` of one half above the parting face, m -> Pa. Source: thin ring; crush height as ISO 3548 measures it
    (from memory).
    """
    return MODULUS["steel"] * 2 * crush_height / (PI * housing_bore)


def shell_seating_pressure(shell_hoop_stress: Pressure, upper_shell_thickness: Length, housing_bore: Length) -> Pressure:
    """Pressure with which the shell sits in its housing: 2 x stress x wall / bore.

    Source: thin ring, as Shigley, Mechanical Engineering Design, section 3-14.
    """
    return 2 * shell_hoop_stress * upper_shell_thickness / housing_bore


def shell_seating_pressure_hot(
    bearing_name: Choice, shell_seating_pressure: Pressure, upper_shell_thickness: Length, housing_bore: Length,
    block_material: Choice = None, block_main_caps: Choice = None, rod_material: Choice = None,
) -> Pressure:
    """Seating pressure 80 K warmer: an aluminum housing grows away from its steel shells.

    Source: thin ring and thermal expansion.
    """
    metals = _housing_metals(bearing_name, block_material, block_main_caps, rod_material)
    if not metals:
        return None
    opened = sum(growth(metal, housing_bore, HOT_RISE) for metal in metals) / len(metals)
    lost = opened - growth("steel", housing_bore, HOT_RISE)
    return shell_seating_pressure - 2 * MODULUS["steel"] * lost * upper_shell_thickness / housing_bore**2


def shell_parting_force(shell_hoop_stress: Pressure, upper_shell_thickness: Length, width: Length) -> Force:
    """Force with which the shells push on each parting face: stress x wall x width.

    N. Source: thin ring.
    """
    return shell_hoop_stress * upper_shell_thickness * width


def housing_growth_by_crush(
    bearing_name: Choice, shell_seating_pressure: Pressure, housing_bore: Length, housing_outside_diameter: Length,
    rod_material: Choice,
) -> Length:
    """How much the seated shells open a big end: p D / E x ((k^2 + 1) / (k^2 - 1) + 0.3), k outside over bore.

    Only a rod is anything like a ring; a main's housing is stiffened by its web. m.
    Source: thick ring under inner pressure, Shigley, Mechanical Engineering Design, section 3-16.
    """
    if bearing_name != "rod" or rod_material not in ROD_METAL:
        return None
    metal = ROD_METAL[rod_material]
    modulus = MODULUS["steel" if metal == "steel_4340" else metal]
    ring = (housing_outside_diameter / housing_bore) ** 2
    return shell_seating_pressure * housing_bore / modulus * ((ring + 1) / (ring - 1) + POISSON)


# -- load and film ---------------------------------------------------------------------------------------


def gas_load_piston(peak_cylinder_pressure: Pressure, block_bore: Length) -> Force:
    """Force of the highest gas pressure on the piston: pressure x pi/4 bore^2.

    Pa, m -> N. Source: definition.
    """
    return peak_cylinder_pressure * PI / 4 * block_bore**2


def _inertia_at_top(reciprocating, big_end, throw, rod, speed):
    return throw * speed**2 * (reciprocating * (1 + throw / rod) + big_end)


def big_end_inertia_load(reciprocating_mass: Mass, rod_big_end_mass: Mass, crank_throw: Length, rod_length: Length,
                         rev_limit: Rpm) -> Force:
    """Load of the big end on its pin at top at the rev limit, without gas: what reciprocates and the big end itself.

    kg, m, rad/s -> N. Source: Khurmi and Gupta, A Textbook of Machine Design, article 32.15, with the rotating end added.
    """
    return _inertia_at_top(reciprocating_mass, rod_big_end_mass, crank_throw, rod_length, rev_limit)


def big_end_gas_load(gas_load_piston: Force, reciprocating_mass: Mass, rod_big_end_mass: Mass, crank_throw: Length,
                     rod_length: Length, peak_torque_speed: Rpm) -> Force:
    """Load of the big end on its pin under the highest gas pressure, less the inertia at the speed of peak torque.

    N. Source: equilibrium at top; highest pressure at the speed of peak torque: common practice, no source.
    """
    return gas_load_piston - _inertia_at_top(reciprocating_mass, rod_big_end_mass, crank_throw, rod_length, peak_torque_speed)


def unit_load(bearing_name: Choice, big_end_inertia_load: Force, width: Length, journal_diameter: Length,
              big_end_gas_load: Force = None, oil_groove: Choice = None) -> Pressure:
    """Largest load over the bearing's projected area, width x diameter; of a main half of one pin's load.

    A groove in the loaded half leaves six tenths of the width. N, m -> Pa. Source: definition, Shigley, Mechanical
    Engineering Design, section 12-13; shares common practice, no source.
    """
    share = LOAD_SHARE.get(bearing_name)
    if share is None:
        return None
    load = big_end_inertia_load if big_end_gas_load is None else greatest(big_end_inertia_load, big_end_gas_load)
    return share * load / (_carrying(width, oil_groove) * journal_diameter)


def _carrying(width, groove):
    return GROOVED_SHARE * width if groove == "full" else width


def film_thickness(bearing_name: Choice, big_end_inertia_load: Force, width: Length, journal_diameter: Length,
                   clearance: Length, oil_viscosity_bearing: Viscosity, rev_limit: Rpm, big_end_gas_load: Force = None,
                   peak_torque_speed: Rpm = None, oil_groove: Choice = None) -> Length:
    """Least oil film, as if the largest load stood still: the thinner of inertia at the limiter and gas at peak torque.

    m. For comparing builds; the true film of a load that turns is another. Source: Raimondi and Boyd, Transactions ASLE 1
    (1958), 159-209.
    """
    share = LOAD_SHARE.get(bearing_name)
    if share is None:
        return None
    carrying = _carrying(width, oil_groove)
    film = journal_bearing.least_film(share * big_end_inertia_load, oil_viscosity_bearing, rev_limit, journal_diameter,
                                      carrying, clearance)
    if big_end_gas_load is None or peak_torque_speed is None:
        return film
    slack = 1e-6 * big_end_inertia_load  # where inertia outweighs the gas there is no load to speak of
    return least(film, journal_bearing.least_film(greatest(share * big_end_gas_load, slack), oil_viscosity_bearing,
                                                  peak_torque_speed, journal_diameter, carrying, clearance))


def film_ratio(film_thickness: Length, journal_finish: Length, shell_finish: Length) -> Ratio:
    """Least oil film over the roughness of both faces together: film / (1.25 sqrt(Ra^2 + Ra^2)).

    Source: Rq = 1.25 Ra of a random surface; lambda ratio, Hamrock, Fundamentals of Fluid Film Lubrication (from memory).
    """
    return film_thickness / (1.25 * sqrt(journal_finish**2 + shell_finish**2))
