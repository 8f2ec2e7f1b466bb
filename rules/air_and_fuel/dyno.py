"""Corrected power: by which standard, by which factor, and what it may be compared with."""

from buildlint.rulebook import *

SHEET = """
build: {stage: handover, peak_power: 487 hp}
dyno: {observed_power: 480 hp, corrected_power: 487 hp%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="A corrected power of {dyno_corrected_power} is written without the standard it was corrected by.",
    fix="Write dyno.correction as printed on the sheet: sae_j1349, std_j607, iso_1585 or iso_3046; STD reads 3 to 5 percent above SAE.",
    source="SAE J1349; from memory: SAE J607 (withdrawn), ISO 1585",
    when={"dyno_corrected_power": given},
    points_at=("dyno_corrected_power",),
    conforming=SHEET % (", correction: sae_j1349", ""),
    nonconforming=(SHEET % ("", "# <-"), SHEET % (", correction: none", "# <-")),
)
def corrected_power_names_standard(
    dyno_corrected_power: Power, dyno_correction: Choice = None, dyno_observed_power: Power = None, *,
    same_within: Fraction = q("0.002", "fraction"),
):
    """The same pull is 500 hp by one standard and 480 by another; a number without its standard cannot be compared."""
    if dyno_correction is None:
        return wanting("dyno_correction").at("dyno_corrected_power")
    if dyno_correction == "none" and dyno_observed_power is not None and abs(dyno_corrected_power / dyno_observed_power -
                                                                             1) > same_within:
        return require(False).saying("The sheet is said to be uncorrected, yet {dyno_corrected_power} differs from the observed "
                                     "{dyno_observed_power}.")
    return passes()


DAY = """
build: {induction: %s}
dyno: {correction: %s, air_pressure: %s, air_temperature: 80 degF, humidity: 0.50, correction_factor: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The correction factor does not follow from the air of the sheet, or lies where the standard no longer holds.",
    fix="Look which standard the software used and at the station's own air pressure, not reduced to sea level; else quote the "
        "observed power.",
    source="SAE J1349; from memory: SAE J607 (withdrawn), ISO 1585, ISO 3046-1, range of validity 0.93 to 1.07",
    compares=("dyno_correction_factor",),
    points_at=("dyno_correction_factor_written", "dyno_corrected_power"),
    conforming=(DAY % ("natural", "sae_j1349", "29.50 inHg", "1.014", ""),
                DAY % ("natural", "std_j607", "29.50 inHg", "1.052", "")),
    nonconforming=(DAY % ("natural", "sae_j1349", "29.50 inHg", "1.052", "# <-"),
                   DAY % ("natural", "std_j607", "25.0 inHg", "1.247", "# <-"),
                   DAY % ("turbocharged", "sae_j1349", "28.0 inHg", "1.072", "# <-")),
)
def correction_factor_is_plausible(
    dyno_factor_used: Ratio = None, dyno_correction_factor_computed: Ratio = None, dyno_correction: Choice = None,
    induction: Choice = None, *,
    agree_within: Fraction = q("0.01", "fraction"), least: Ratio = q("0.93", "ratio"), most: Ratio = q("1.07", "ratio"),
    std_least: Ratio = q("0.96", "ratio"), std_most: Ratio = q("1.11", "ratio"), boosted_within: Fraction = q("0.02", "fraction"),
):
    """Air, temperature and water vapor give the factor; one that does not follow from them was typed, not measured.

    Far from its reference no standard holds. By the older STD all factors lie some 4 percent higher, and so does its
    band. A turbocharger that holds its own boost makes up for thin air itself, so a large factor flatters it.
    """
    if dyno_factor_used is None:
        return not_applicable("no correction factor and no pair of powers is written")
    low, high = (std_least, std_most) if dyno_correction == "std_j607" else (least, most)
    name = (dyno_correction or "no standard").replace("_", " ").upper() if dyno_correction else "no standard"
    if dyno_correction_factor_computed is not None and abs(dyno_factor_used / dyno_correction_factor_computed - 1) > agree_within:
        verdict = matches(Ratio(dyno_factor_used), Ratio(dyno_correction_factor_computed), relative=agree_within)
        trouble = f"The sheet corrects by {dyno_factor_used:.4f}; its own air gives {dyno_correction_factor_computed:.4f} by {name}."
        advice = "Look which standard the software really used, and whether the pressure is the station's own, not reduced to sea level."
    elif induction == "turbocharged" and dyno_correction not in (None, "none") and abs(dyno_factor_used - 1) > boosted_within:
        verdict = require(False)
        trouble = f"A factor of {dyno_factor_used:.4f} made for natural engines is put on a turbocharged one."
        advice = "Show the observed power with the manifold pressure beside it; a boost control makes up for thin air by itself."
    else:
        verdict = within(Ratio(dyno_factor_used), low, high)
        trouble = f"The correction factor is {dyno_factor_used:.4f}; {name} is not meant for factors outside {float(low):g} to {float(high):g}."
        advice = "Test again on a better day, or quote the observed power."
    return verdict.saying(trouble, advice)


PAIR = """
build: {stage: handover, peak_power: %s}
dyno: {kind: %s, correction: std_j607, corrected_power: %s, ran_with: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The sheet does not compare with the power stated for the build.",
    fix="State the power by the same standard, at the same place and with the same accessories as the sheet.",
    source="SAE J1349; SAE J607 (withdrawn), from memory; common practice, no source",
    when={"dyno_corrected_power": given},
    points_at=("dyno_corrected_power",),
    conforming=PAIR % ("490 hp", "engine", "487 hp", "[open_headers, electric_water_pump]", ""),
    nonconforming=(PAIR % ("490 hp", "wheels", "487 hp", "[mufflers]", "# <-"),
                   PAIR % ("440 hp", "engine", "487 hp", "[open_headers]", "# <-"),
                   (PAIR % ("490 hp", "engine", "487 hp", "[]", "# <-")).replace(", ran_with: []", "")),
)
def power_sheets_share_one_standard(
    dyno_corrected_power: Power, peak_power: Power = None, dyno_kind: Choice = None, dyno_ran_with: List = None,
    dyno_correction: Choice = None, *,
    agree_within: Fraction = q("0.04", "fraction"), wheel_loss: Fraction = q("0.08", "fraction"),
):
    """A number with open headers and an electric pump, by STD, is five to ten percent above the same engine as it drives.

    The build's own power is at the flywheel. A sheet from the wheels lies 10 to 20 percent below, so a claim that
    equals it was taken over without the loss; the loss itself is not a fixed share and is not computed here.
    """
    share = None if peak_power is None else dyno_corrected_power / peak_power
    if dyno_kind == "wheels" and share is not None and share > 1 - wheel_loss:
        return require(False).saying(
            "The sheet is from the wheels, but the build's flywheel power is nearly the same figure.",
            "Write the flywheel power from an engine dynamometer, or say under notes how the loss was found.")
    if dyno_ran_with is None:
        return wanting("dyno_ran_with").at("dyno_corrected_power").saying(
            "Nothing says what the engine ran with on the dynamometer: mufflers, water pump, alternator, air filter.",
            "Write dyno.ran_with, such as [mufflers, alternator, air filter]; only sheets with the same list compare.")
    if dyno_kind == "engine" and share is not None and abs(share - 1) > agree_within:
        standard = " STD reads 3 to 5 percent above SAE J1349." if dyno_correction == "std_j607" else ""
        return require(False).saying(
            f"The sheet shows {share:.0%} of the power stated for the build." + standard,
            "State the power by the same standard and with the same accessories as the sheet.")
    return passes()
