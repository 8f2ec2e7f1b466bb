"""The tip of the spark plug: its way to the piston, and how far it may stand out."""

from buildlint.rulebook import *

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
    fix="Index the plug with washers, take a shorter projection, or notch the dome: {short:up} more is wanted.",
    source="a dome that strikes closes the gap, seen in the trade; 1.0 and 1.5 mm common practice, no source",
    compares=("spark_plug_piston_gap",),
    points_at=("spark_plug_piston_gap_written", "piston_dome_height_at_plug", "head_plug_tip_below_roof"),
    conforming=(TIP % ("flat", "", "", ""), TIP % ("dome", ", dome_height_at_plug: 2.0 mm", "", "")),
    nonconforming=((TIP % ("dome", ", dome_height_at_plug: 6.0 mm", "", "")).replace("6.0 mm}", "6.0 mm}  # <-"),
                   TIP % ("flat", "", ", piston_gap: 0.035 in", "# <-"), TIP % ("flat", "", ", piston_gap: 0.020 in", "# <-")),
)
def plug_tip_clears_piston(
    spark_plug_piston_gap: Length = None, piston_crown: Choice = None, quench_closing: Length = None, *, flat: Length = q("1.0 mm"),
    dome: Length = q("1.5 mm"), error_below: Length = q("0.8 mm"),
):
    """Rods stretch and pistons rock: a tip that clears by a hair on the stand is folded shut in the first pull.

    Measured with clay on the electrode it wins over the drawing. Where the model of rod and piston says that more than
    0.8 mm closes up at speed, that counts instead. Under a dome the gap has to be known; a flat or dished crown stays
    away from a plug of the right reach, so that there it is judged only where it is written or follows from the parts.
    """
    if spark_plug_piston_gap is None:
        return lacking("spark_plug_piston_gap") if piston_crown == "dome" else not_applicable("no dome stands under the plug")
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
    says="The tip of the plug is not made for this load.",
    fix="Take copper-core plugs with a short strap that end flush with the shell.",
    source="common practice, no source",
    points_at=("spark_plug_tip_projection", "spark_plug_electrode"),
    conforming=(LONG % ("natural", "0 psi", "0.060 in", "copper_core", ""),
                LONG % ("turbocharged", "25 psi", "0 in", "copper_core", "")),
    nonconforming=(LONG % ("turbocharged", "25 psi", "0.060 in", "copper_core", "# <-"),
                   (LONG % ("natural", "0 psi", "0 in", "fine_wire", "# <-")) + "nitrous: {power: 150 hp, retard: 6 deg}\n"),
)
def plug_projection_suits_load(
    spark_plug_tip_projection: Length = None, spark_plug_electrode: Choice = None, induction: Choice = None,
    boost_pressure: Pressure = None,
    nitrous_power: Power = None, *, projected: Length = q("1.0 mm"), strong_boost: Pressure = q("140 kPa"),
    strong_shot: Power = q("200 hp"),
):
    """A tip far out in the charge lights it well and gets hot: under much boost or nitrous it becomes a glow plug.

    Fine wires of precious metal burn off in nitrous.
    """
    if spark_plug_tip_projection is None and spark_plug_electrode is None:
        return not_applicable("nothing is written of the tip")
    if spark_plug_electrode == "fine_wire" and nitrous_power:
        return require(False).at("spark_plug_electrode").saying("Fine-wire plugs burn off in nitrous.", "Take copper-core plugs with a short, stout strap.")
    heavy = induction not in (None, "natural") and (boost_pressure or 0.0) > strong_boost or (nitrous_power or 0.0) > strong_shot
    if heavy and spark_plug_tip_projection is not None and spark_plug_tip_projection > projected:
        return require(False).at("spark_plug_tip_projection").saying("The plug's tip stands {spark_plug_tip_projection} out into a charge of this pressure and glows.", "Take a plug that ends flush with its shell, one step colder.")
    return passes()


NOTCH = """
ignition: {spark_plug: {gap: 0.035 in%s}}
pistons: {crown: %s, dome_plug_notch: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="mock_up",
    says="The domes have no notch for the plug, and nothing says how far its electrode stands off.",
    fix="Measure with clay on the electrode and write spark_plug.piston_gap; notch the domes where it is too near.",
    source="common practice, no source",
    when={"piston_dome_plug_notch": given},
    points_at=("piston_dome_plug_notch",),
    conforming=(NOTCH % ("", "dome", "yes", ""), NOTCH % (", piston_gap: 0.080 in", "dome", "no", ""), NOTCH % ("", "flat", "no", "")),
    nonconforming=NOTCH % ("", "dome", "no", "# <-"),
)
def dome_is_notched_for_the_plug(piston_dome_plug_notch: YesNo, piston_crown: Choice = None, spark_plug_piston_gap: Length = None):
    """The flame starts in the pocket round the plug; a dome that fills it strikes the electrode, or hides the spark behind a wall.

    Where the gap is measured, or follows from roof, projection and dome, the number decides and not the notch.
    """
    return require(piston_dome_plug_notch or piston_crown != "dome" or spark_plug_piston_gap is not None)
