"""The spark gap: by the pressure it must jump, and by what the coil can give."""

from buildlint.rulebook import *

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
    fix="Gap the plugs to {low:up} to {high:down}; the coil and plug makers' figure wins.",
    source="published boost gaps run 0.45 to 0.90 mm; rows common practice, no source",
    when={"spark_plug_gap": given},
    points_at=("spark_plug_gap",),
    conforming=(GAP % ("natural", "distributor", "0.040 in", "", "0 psi"),
                GAP % ("turbocharged", "coil_per_cylinder", "0.026 in", "", "15 psi")),
    nonconforming=(GAP % ("turbocharged", "coil_per_cylinder", "0.036 in", "# <-", "15 psi"),
                   GAP % ("natural", "distributor", "0.055 in", "# <-", "0 psi"),
                   GAP % ("natural", "distributor", "0.016 in", "# <-", "0 psi")),
)
def plug_gap_suits_pressure(
    spark_plug_gap: Length, induction: Choice, spark_source: Choice = None, boost_pressure: Pressure = None,
    nitrous_power: Power = None,
    compression_ratio_largest: Ratio = None, *,
    narrow={"coil_and_distributor": q("0.80 mm"), "high_energy": q("0.80 mm"), "high_ratio": q("0.60 mm"),
            "boost_to_70_kpa": q("0.65 mm"),
            "boost_to_140_kpa": q("0.55 mm"), "boost_above": q("0.45 mm"), "small_shot": q("0.70 mm"),
            "large_shot": q("0.60 mm")},
    wide={"coil_and_distributor": q("1.15 mm"), "high_energy": q("1.40 mm"), "high_ratio": q("0.95 mm"),
          "boost_to_70_kpa": q("0.90 mm"),
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
        row = "high_energy" if spark_source in ("coil_per_cylinder", "wasted_spark",
                                                "distributor_capacitive") else "coil_and_distributor"
    value = Length(spark_plug_gap, spark_plug_gap.unit)
    serious = row in ("boost_to_140_kpa", "boost_above", "large_shot")
    if value > wide[row] + slack:
        verdict = at_most(value, warning=wide[row] + slack) if serious else at_most(value, note=wide[row] + slack)
    else:
        verdict = at_least(value, note=least)
    case = {
        "coil_and_distributor": "a coil and distributor", "high_energy": "this ignition", "high_ratio": "this compression ratio",
        "small_shot": "this shot", "large_shot": "this shot"
    }.get(row, "this boost")
    return verdict.telling(case=case,
                           end="most" if value > least else "least",
                           low=Length(narrow[row], value.unit),
                           high=Length(wide[row], value.unit))


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
    fix="Gap the plugs to {gap_to_reach:down}, or take a coil of {voltage_to_order:up}: worn plugs and leads ask for the rest.",
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
    return verdict.telling(gap_to_reach=Length(max(reach, 0.0), spark_plug_gap.unit),
                           voltage_to_order=Voltage(spark_breakdown_voltage / most, "kV"))
