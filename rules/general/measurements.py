"""Measurements as such: whether they are newer than the last cut, taken at the right temperature, and with or without a coating."""

from buildlint.rulebook import *
from buildlint.tables.materials import EXPANSION

# What changes when a deck, a bore or a head is cut, by the beginning of the word.
BY_DECK = ("block_deck_height", "piston_below_deck", "clearance_volume", "intake_piston_gap", "exhaust_piston_gap")
BY_BORE = ("block_bore", "piston_wall_clearance", "top_ring_end_gap", "second_ring_end_gap", "oil_ring_end_gap", "main_bearing_clearance",
           "main_bearing_housing_bore")
BY_HEAD = ("intake_piston_gap", "exhaust_piston_gap", "clearance_volume", "intake_valve_stem_height", "exhaust_valve_stem_height",
           "head_valve_to_valve_gap")

CUT = """
block: {last_machined_on: 2026-04-16}
pistons:
  below_deck: {plan: 0.005 in, measured: 0.006 in, by: RM, on: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="{names} {verb} measured on {oldest}, before {cut} of {changed}.",
    fix="Measure again, and write the new day under on; until then what follows from the old figure is of another engine.",
    source="common practice, no source",
    conforming=(CUT % ("2026-04-22", ""), CUT % ("2026-04-16", "")),
    nonconforming=(CUT % ("2026-04-10", "# <-"), """
        heads: {valve_job_on: 2026-04-20}
        intake:
          piston_gap: {plan: 0.100 in, measured: 0.120 in, by: RM, on: 2026-04-12}  # <-
        """, """
        heads: {valve_job_on: 2026-04-20}
        intake:
          piston_gap: 0.120 in
          piston_gap_measured_on: 2026-04-12  # <-
        """),
)
def measurement_is_newer_than_change(
    measurements: Entries, block_last_machined_on: Date = None, head_valve_job_on: Date = None, steps_done: Entries = None,
    intake_piston_gap_measured_on: Date = None, exhaust_piston_gap_measured_on: Date = None,
):
    """Every cut on a deck, a bore or a head makes the old numbers old, and they look as good as ever.

    Only where a day is written for both. Deck figures are held against the last day the block was machined, bores and bearings
    against the day the step was signed, since a deck is often cut after them; valve gaps against the valve job. Spring heights and
    chamber volumes have rules of their own.
    """
    done = steps_done or {}
    block = [day for day in (block_last_machined_on, done.get("machine_block")) if day is not None]
    heads = [day for day in (head_valve_job_on, done.get("machine_heads")) if day is not None]
    changes = []
    if block:
        changes.append((max(block), "the last cut on the block", BY_DECK))
    if "machine_block" in done:
        changes.append((done["machine_block"], "the machining of the block", BY_BORE))
    if heads:
        changes.append((max(heads), "the work on the heads", BY_HEAD))
    stale = {}
    for row in measurements:
        for changed, cut, words in changes:
            if row["on"] is not None and row["measured"] and row["word"] in words and row["on"] < changed:
                stale.setdefault((changed, cut), {}).setdefault(row["word"], row["on"])
    for word, day in (("intake_piston_gap_measured_on", intake_piston_gap_measured_on), ("exhaust_piston_gap_measured_on", exhaust_piston_gap_measured_on)):
        for changed, cut, words in changes:
            if day is not None and day < changed and word.removesuffix("_measured_on") in words:
                stale.setdefault((changed, cut), {}).setdefault(word, day)
    if not changes:
        return not_applicable("no day of a cut is written")
    if not stale:
        return passes()
    (changed, cut), words = max(stale.items(), key=lambda item: len(item[1]))
    names = list(dict.fromkeys(word.removesuffix("_measured_on").replace("_", " ") for word in words))
    told = names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]
    return require(False).at(next(iter(words))).telling(
        names=told[0].upper() + told[1:], verb="was" if len(names) == 1 else "were", oldest=str(min(words.values())), cut=cut, changed=str(changed))


WARM = """
build: {measured_part_temperature: %s, reference_temperature: 68 degF}  %s
bearings:
  main: {journal_diameter: 2.5000 in, clearance: 0.0024 in}
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="Parts were measured at {measured_part_temperature}, the standards at {reference_temperature}: {what} grows by {value} over that, and {limit} is all "
         "that {clearance} of clearance bears.",
    fix="Let parts and standards lie together until they differ by {allowed:down} at most, or correct the figure by {value}.",
    source="ISO 1 for the reference temperature of 20 degC; thermal expansion; a fifth of the clearance common practice, no source",
    when={"measured_part_temperature": given, "reference_temperature": given},
    points_at=("measured_part_temperature",),
    conforming=(WARM % ("70 degF", ""), WARM % ("75 degF", "")),
    nonconforming=(WARM % ("100 degF", "# <-"), """
        build: {measured_part_temperature: 95 degF, reference_temperature: 68 degF}  # <-
        block: {bore: 4.030 in}
        pistons: {wall_clearance: 0.0020 in}
        """),
)
def measurement_temperature_is_near_standard(
    measured_part_temperature: Temperature, reference_temperature: Temperature, main_bearing_journal_diameter: Length = None,
    main_bearing_clearance: Length = None, rod_bearing_journal_diameter: Length = None, rod_bearing_clearance: Length = None,
    block_bore: Length = None, piston_wall_clearance: Length = None, *, share: Fraction = q("0.20", "fraction"),
):
    """A warm journal is a thick one: ten kelvin are three tenths of a thousandth on a main, an eighth of its clearance.

    The part's growth against the gauge must stay below a fifth of the clearance that is read. Journals are counted as steel, pistons
    as aluminum. Where the standards' temperature is not written they are taken to have lain beside the part.
    """
    apart = abs(measured_part_temperature - reference_temperature)
    worst = None
    for what, metal, diameter, clearance in (
        ("a main journal", "steel", main_bearing_journal_diameter, main_bearing_clearance),
        ("a rod journal", "steel", rod_bearing_journal_diameter, rod_bearing_clearance),
        ("a piston", "aluminum_2618", block_bore, piston_wall_clearance),
    ):
        if None in (diameter, clearance) or clearance <= 0:
            continue
        growth = EXPANSION[metal] * diameter * apart
        if worst is None or growth / clearance > worst[0]:
            worst = growth / clearance, what, growth, clearance, share * clearance / (EXPANSION[metal] * diameter)
    if worst is None:
        return not_applicable("no diameter with its clearance is written")
    _, what, growth, clearance, allowed = worst
    verdict = at_most(Length(growth), Length(share * clearance))
    return verdict.telling(what=what, clearance=Length(clearance), allowed=TemperatureRise(allowed))


COATED = """
build: {stage: machining}
bearings:
  main: {coating_thickness: 0.0003 in%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="{what} are coated, and nothing says whether their size was taken before or after.",
    fix="{remedy}",
    source="common practice, no source",
    points_at=("main_bearing_coating_thickness", "rod_bearing_coating_thickness", "piston_skirt_coating"),
    conforming=(COATED % (", measured_after_coating: yes", ""), COATED % (", measured_after_coating: no", "")),
    nonconforming=(COATED % ("", "# <-"), """
        build: {stage: machining}
        pistons: {skirt_coating: permanent_film}  # <-
        """),
)
def coated_part_measured_after_coating(
    main_bearing_coating_thickness: Length = None, main_bearing_measured_after_coating: YesNo = None,
    rod_bearing_coating_thickness: Length = None, rod_bearing_measured_after_coating: YesNo = None, piston_skirt_coating: Choice = None,
    piston_measured_after_coating: YesNo = None,
):
    """A film of three tenths of a thousandth a wall takes six off the clearance; whoever measured before it is that far out.

    Either answer will do, as long as it is written: the clearance rules take the figure as it stands.
    """
    parts = (("Main shells", "main_bearing_measured_after_coating", "bearings.main.measured_after_coating",
              main_bearing_coating_thickness is not None and main_bearing_coating_thickness > 0, main_bearing_measured_after_coating,
              "main_bearing_coating_thickness"),
             ("Rod shells", "rod_bearing_measured_after_coating", "bearings.rod.measured_after_coating",
              rod_bearing_coating_thickness is not None and rod_bearing_coating_thickness > 0, rod_bearing_measured_after_coating,
              "rod_bearing_coating_thickness"),
             ("Piston skirts", "piston_measured_after_coating", "pistons.measured_after_coating",
              piston_skirt_coating not in (None, "none"), piston_measured_after_coating, "piston_skirt_coating"))
    if not any(coated for _, _, _, coated, _, _ in parts):
        return not_applicable("nothing that is measured is coated")
    for what, word, key, coated, answer, shown in parts:
        if coated and answer is None:
            return wanting(word).at(shown).telling(what=what).saying(fix=f"Write {key}: yes or no.")
    return passes()
