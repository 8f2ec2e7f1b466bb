"""Spark plugs: heat range, gap, the voltage it takes, and where the tip stands."""

from buildlint.rulebook import *
from buildlint.tables.duties import STREET_DUTIES

HEAT = """
build: {duty: street, peak_power: %s}
ignition: {spark_plug: {steps_colder: %s, stock_power: 300 hp}}  %s
boost: {pressure: %s}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="Steps colder than stock: {spark_plug_steps_colder}; added power, charge and ratio ask for about {wanted}.",
    fix="{advice}",
    source="one step for each 75 to 100 hp, common practice, no source",
    when={"spark_plug_steps_colder": given, "spark_plug_stock_power": given},
    points_at=("spark_plug_steps_colder",),
    conforming=(HEAT % ("550 hp", "3", "", "10 psi"), HEAT % ("320 hp", "0", "", "0 psi")),
    nonconforming=(HEAT % ("550 hp", "1", "# <-", "10 psi"), HEAT % ("320 hp", "4", "# <-", "0 psi")),
)
def plug_heat_suits_power(
    spark_plug_steps_colder: Count, plug_steps_wanted: Ratio, duty: Choice = None, *, short_by: Ratio = q("1", "ratio"),
    long_by: Ratio = q("2", "ratio"),
):
    """A plug that is too hot glows and lights the charge before the spark; one that is too cold soots up in town.

    The tip should live between 500 and 850 degrees C. One step short is the makers' own spread; more is a warning. Too
    cold is only noted, and only where the engine idles on the road.
    """
    wanted = int(plug_steps_wanted + 0.5)
    short = wanted - spark_plug_steps_colder
    if short > 0:
        verdict = at_most(Ratio(short), warning=short_by)
        advice = f"Take a plug {wanted} steps colder than stock; read it after the first hard pull."
    else:
        verdict = at_most(Ratio(-short), note=long_by) if duty in STREET_DUTIES else passes()
        advice = f"It may soot up on the road: {wanted} to {wanted + 1} steps colder would do."
    return verdict.telling(wanted=f"{wanted}", advice=advice)


COUNTED = """
build: {stage: ordering}
ignition: {spark_plug: {part: hc-plug-14s%s}}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The plug {spark_plug_part} is named without its heat range in steps from stock; makers count heat in opposite directions.",
    fix="Write ignition.spark_plug.steps_colder: 0 for the stock heat range, 2 for two steps colder, -1 for one hotter.",
    source="common practice, no source",
    when={"spark_plug_part": given},
    points_at=("spark_plug_part",),
    conforming=COUNTED % (", steps_colder: 1", ""),
    nonconforming=COUNTED % ("", "# <-"),
)
def plug_heat_counts_from_stock(spark_plug_part: PartNumber, spark_plug_steps_colder: Count = None):
    """A higher number is colder with one maker and hotter with the next; steps from stock cannot be misread."""
    if spark_plug_steps_colder is None:
        return wanting("spark_plug_steps_colder").at("spark_plug_part")
    return passes()


GAP = """
build: {induction: %s}
ignition: {spark_source: %s, spark_plug: {gap: %s}}  %s
boost: {pressure: %s}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The plug gap is {value}; for {case} {limit} is the {end}.",
    fix="Gap the plugs to {low} to {high}; the coil and plug makers' figure wins.",
    source="published boost gaps run 0.45 to 0.90 mm; rows common practice, no source",
    when={"spark_plug_gap": given},
    points_at=("spark_plug_gap",),
    conforming=(GAP % ("natural", "distributor", "0.040 in", "", "0 psi"), GAP % ("turbocharged", "coil_per_cylinder", "0.026 in", "", "15 psi")),
    nonconforming=(GAP % ("turbocharged", "coil_per_cylinder", "0.036 in", "# <-", "15 psi"), GAP % ("natural", "distributor", "0.055 in", "# <-", "0 psi"),
                   GAP % ("natural", "distributor", "0.016 in", "# <-", "0 psi")),
)
def plug_gap_suits_pressure(
    spark_plug_gap: Length, induction: Choice, spark_source: Choice = None, boost_pressure: Pressure = None, nitrous_power: Power = None,
    compression_ratio_largest: Ratio = None, *,
    narrow={"coil_and_distributor": q("0.80 mm"), "high_energy": q("0.80 mm"), "high_ratio": q("0.60 mm"), "boost_to_70_kpa": q("0.65 mm"),
            "boost_to_140_kpa": q("0.55 mm"), "boost_above": q("0.45 mm"), "small_shot": q("0.70 mm"), "large_shot": q("0.60 mm")},
    wide={"coil_and_distributor": q("1.15 mm"), "high_energy": q("1.40 mm"), "high_ratio": q("0.95 mm"), "boost_to_70_kpa": q("0.90 mm"),
          "boost_to_140_kpa": q("0.75 mm"), "boost_above": q("0.65 mm"), "small_shot": q("0.90 mm"), "large_shot": q("0.75 mm")},
    slack: Length = q("0.10 mm"), least: Length = q("0.45 mm"), mild: Pressure = q("70 kPa"), strong: Pressure = q("140 kPa"),
    shot: Power = q("150 hp"), high_ratio: Ratio = q("12:1", "ratio"),
):
    """The denser the charge, the harder the gap is to jump; the wider the gap, the surer a lean charge lights.

    Distributor systems take about a millimeter, modern coils more; each doubling of pressure takes a quarter away. Up to
    70 kPa of boost practice differs, so there it is only noted; above, too wide is a warning, since it misfires where the
    engine is loaded.
    """
    boosted = induction != "natural" and boost_pressure is not None and boost_pressure > 0
    if boosted:
        row = "boost_to_70_kpa" if boost_pressure <= mild else "boost_to_140_kpa" if boost_pressure <= strong else "boost_above"
    elif nitrous_power:
        row = "small_shot" if nitrous_power <= shot else "large_shot"
    elif compression_ratio_largest is not None and compression_ratio_largest > high_ratio:
        row = "high_ratio"
    else:
        row = "high_energy" if spark_source in ("coil_per_cylinder", "wasted_spark", "distributor_capacitive") else "coil_and_distributor"
    value = Length(spark_plug_gap, spark_plug_gap.unit)
    serious = row in ("boost_to_140_kpa", "boost_above", "large_shot")
    if value > wide[row] + slack:
        verdict = at_most(value, warning=wide[row] + slack) if serious else at_most(value, note=wide[row] + slack)
    else:
        verdict = at_least(value, note=least)
    case = {"coil_and_distributor": "a coil and distributor", "high_energy": "this ignition", "high_ratio": "this compression ratio",
            "small_shot": "this shot", "large_shot": "this shot"}.get(row, "this boost")
    return verdict.telling(case=case, end="most" if value > least else "least", low=Length(narrow[row], value.unit), high=Length(wide[row], value.unit))


SPARK = """
build: {duty: street_strip, induction: %s, fuel: pump_gasoline}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: 0.005 in, dish_volume: %s}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
intake:
  lobe: {centerline: 106 deg, advertised_duration: 276 deg, advertised_check_height: 0.006 in}
ignition: {total_advance: %s, coil: {voltage: 30 kV}, spark_plug: {gap: %s}}  %s
boost: {pressure: %s}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="At full load it takes about {spark_breakdown_voltage} to jump {spark_plug_gap}, {value} of what the coil gives; keep {limit}.",
    fix="Gap the plugs to {gap_to_reach}, or take a coil of {voltage_to_order}: worn plugs and leads ask for the rest.",
    source="a published laboratory fit, from memory; 60 percent common practice, no source",
    when={"coil_voltage": given, "spark_plug_gap": given},
    points_at=("spark_plug_gap", "coil_voltage"),
    conforming=SPARK % ("natural", "5.0 cc", "34 deg", "0.035 in", "", "0 psi"),
    nonconforming=SPARK % ("turbocharged", "18.0 cc", "18 deg", "0.045 in", "# <-", "20 psi"),
)
def coil_voltage_suits_gap(
    spark_breakdown_voltage: Voltage, coil_voltage: Voltage, spark_plug_gap: Length, *, most: Fraction = q("0.60", "fraction"),
):
    """A coil that is only just strong enough when new misfires after a thousand miles, under load first.

    Breakdown rises with gap and density of the charge where the spark falls; less advance means denser. The model leaves
    out wear and wet leads, which is what the reserve is for.
    """
    share = spark_breakdown_voltage / coil_voltage
    base = 4.3e3
    dense = (spark_breakdown_voltage - base) / (136e3 + 324e3 * spark_plug_gap / 1e-3) if spark_breakdown_voltage > base else 0.0
    reach = ((most * coil_voltage - base) / dense - 136e3) / 324e3 * 1e-3 if dense > 0 else spark_plug_gap
    verdict = at_most(Fraction(share), most)
    return verdict.telling(gap_to_reach=Length(max(reach, 0.0), spark_plug_gap.unit), voltage_to_order=Voltage(spark_breakdown_voltage / most, "kV"))


TIP = """
pistons: {crown: %s, below_deck: 0.005 in%s}
heads: {roof_height_at_plug: 8.0 mm, plug_tip_below_roof: 5.5 mm}
head_gasket: {compressed_thickness: 0.039 in}
ignition: {spark_plug: {gap: 0.035 in%s}}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="mock_up",
    says="The plug's electrode stands {value} from the piston at top; keep {limit}.",
    fix="Index the plug with washers, take a shorter projection, or notch the dome: {short} more is wanted.",
    source="a dome that strikes closes the gap, seen in the trade; 1.0 and 1.5 mm common practice, no source",
    compares=("spark_plug_piston_gap",),
    points_at=("spark_plug_piston_gap_written", "piston_dome_height_at_plug", "head_plug_tip_below_roof"),
    conforming=(TIP % ("flat", "", "", ""), TIP % ("dome", ", dome_height_at_plug: 2.0 mm", "", "")),
    nonconforming=((TIP % ("dome", ", dome_height_at_plug: 6.0 mm", "", "")).replace("6.0 mm}", "6.0 mm}  # <-"),
                   TIP % ("flat", "", ", piston_gap: 0.035 in", "# <-"), TIP % ("flat", "", ", piston_gap: 0.020 in", "# <-")),
)
def plug_tip_clears_piston(
    spark_plug_piston_gap: Length, piston_crown: Choice = None, quench_closing: Length = None, *, flat: Length = q("1.0 mm"),
    dome: Length = q("1.5 mm"), error_below: Length = q("0.8 mm"),
):
    """Rods stretch and pistons rock: a tip that clears by a hair on the stand is folded shut in the first pull.

    Measured with clay on the electrode it wins over the drawing. Where the model of rod and piston says that more than
    0.8 mm closes up at speed, that counts instead.
    """
    hard = max(error_below, quench_closing or 0.0)
    soft = max(dome if piston_crown == "dome" else flat, hard)
    verdict = at_least(Length(spark_plug_piston_gap), error=hard, warning=soft)
    if spark_plug_piston_gap < 0:
        verdict.saying("The plug's electrode and the piston overlap at top ({value}); keep {limit} between them.")
    return verdict.telling(short=Length(max(soft - spark_plug_piston_gap, 0.0)))


LONG = """
build: {induction: %s}
boost: {pressure: %s}
ignition: {spark_plug: {tip_projection: %s, electrode: %s}}  %s
"""


@rule(
    scope="cylinder",
    level="note",
    due="ordering",
    says="{trouble}.",
    fix="{advice}",
    source="common practice, no source",
    points_at=("spark_plug_tip_projection", "spark_plug_electrode"),
    conforming=(LONG % ("natural", "0 psi", "0.060 in", "copper_core", ""), LONG % ("turbocharged", "25 psi", "0 in", "copper_core", "")),
    nonconforming=(LONG % ("turbocharged", "25 psi", "0.060 in", "copper_core", "# <-"),
                   (LONG % ("natural", "0 psi", "0 in", "fine_wire", "# <-")) + "nitrous: {power: 150 hp, retard: 6 deg}\n"),
)
def plug_projection_suits_load(
    spark_plug_tip_projection: Length = None, spark_plug_electrode: Choice = None, induction: Choice = None, boost_pressure: Pressure = None,
    nitrous_power: Power = None, *, projected: Length = q("1.0 mm"), strong_boost: Pressure = q("140 kPa"), strong_shot: Power = q("200 hp"),
):
    """A tip far out in the charge lights it well and gets hot: under much boost or nitrous it becomes a glow plug.

    Fine wires of precious metal burn off in nitrous.
    """
    if spark_plug_tip_projection is None and spark_plug_electrode is None:
        return not_applicable("nothing is written of the tip")
    if spark_plug_electrode == "fine_wire" and nitrous_power:
        return require(False).at("spark_plug_electrode").telling(trouble="Fine-wire plugs burn off in nitrous", advice="Take copper-core plugs with a short, stout strap.")
    heavy = induction not in (None, "natural") and (boost_pressure or 0.0) > strong_boost or (nitrous_power or 0.0) > strong_shot
    if heavy and spark_plug_tip_projection is not None and spark_plug_tip_projection > projected:
        return require(False).at("spark_plug_tip_projection").telling(trouble="The plug's tip stands far out into a charge of this pressure and glows",
                                                                      advice="Take a plug that ends flush with its shell, one step colder.")
    return passes()
