"""Guides: the right play for the stem, straight, and finished before the seats."""

from buildlint.rulebook import *

STEP, METRIC_STEP = q("0.0001 in"), q("0.005 mm")  # to which a guide is honed

PLAY = """
exhaust:
  valve: {stem_diameter: %s, material: %s}
  guide: {material: %s, bore: 0.3150 in}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The stem runs with {value} in a {guide_material} guide; {low:up} to {high:down} is right here.",
    fix="Hone or ream the guide to {bore_wanted} for this stem.",
    source="production sheets: 0.0010 to 0.0026 in with a service limit of 0.0037 in, intake 0.0008 to 0.0024, exhaust 0.0020 to "
           "0.0035; performance window of the trade press; rows by material common practice, no source",
    compares=("guide_stem_clearance",),
    points_at=("guide_stem_clearance", "guide_bore"),
    conforming=("""
        intake:
          valve: {stem_diameter: 0.3134 in, material: austenitic_21_4n}
          guide: {material: bronze, bore: 0.3150 in}
        """, PLAY % ("0.3130 in", "austenitic_21_4n", "bronze", "")),
    nonconforming=(PLAY % ("0.3141 in", "austenitic_21_4n", "cast_iron", "# <-"), PLAY % ("0.3135 in", "austenitic_21_4n", "cast_iron", "# <-"),
                   PLAY % ("0.3114 in", "austenitic_21_4n", "bronze", "# <-"), PLAY % ("0.3100 in", "austenitic_21_4n", "bronze", "# <-"),
                   PLAY % ("0.3135 in", "nickel_alloy_n07751", "bronze", "# <-"), """
        intake:
          valve: {stem_diameter: 0.3134 in}
          guide:
            material: bronze
            bore: 0.3150 in
            stem_clearance: 0.0024 in  # <-
        """),
)
def stem_clearance_suits_guide(
    guide_stem_clearance: Length, side_name: Choice, guide_material: Choice = None, valve_material: Choice = None,
    valve_build: Choice = None, valve_stem_diameter: Length = None, boost_pressure: Pressure = None, nitrous_power: Power = None,
    duty: Choice = None, guide_stem_clearance_written: Length = None, guide_stem_clearance_computed: Length = None, *,
    error_below={"intake_bronze": q("0.0006 in"), "intake_iron": q("0.0008 in"), "exhaust_bronze": q("0.0010 in"),
                 "exhaust_iron": q("0.0012 in")},
    warning_below={"intake_bronze": q("0.0010 in"), "intake_iron": q("0.0012 in"), "exhaust_bronze": q("0.0014 in"),
                   "exhaust_iron": q("0.0016 in")},
    warning_above={"intake_bronze": q("0.0025 in"), "intake_iron": q("0.0028 in"), "exhaust_bronze": q("0.0032 in"),
                   "exhaust_iron": q("0.0035 in")},
    error_above={"intake_bronze": q("0.0037 in"), "intake_iron": q("0.0037 in"), "exhaust_bronze": q("0.0045 in"),
                 "exhaust_iron": q("0.0045 in")},
    more_for={"nickel_alloy": q("0.0003 in"), "heat": q("0.0005 in"), "sodium_filled": q("0.0005 in")},
    much_boost: Pressure = q("15 psi"), much_nitrous: Power = q("200 hp"), told_apart: Length = q("0.0003 in"),
    another_size=(q("-0.002 in"), q("0.008 in")),
    smallest_stem: Length = q("0.300 in"), largest_stem: Length = q("0.380 in"),
):
    """A tight stem seizes in its guide when it gets hot; a loose one rocks, wears its seat and burns oil.

    Bronze runs tighter than iron or powder metal, the exhaust looser than the intake. A nickel alloy on the exhaust
    grows more, heavy boost, nitrous and marine use heat the stem, a sodium-filled stem is hot all along; each adds.
    Titanium runs like steel; some give it three ten-thousandths more. The table is for stems of 5/16 to 3/8 in.
    """
    if guide_stem_clearance_written is not None and guide_stem_clearance_computed is not None:
        verdict = matches(guide_stem_clearance_written, guide_stem_clearance_computed, tolerance=told_apart, level="warning")
        if verdict.kind == "fail":
            return verdict.at("guide_stem_clearance").saying(
                "The stem's play is written as {value}, but guide and stem give {limit}.", "Measure guide and stem again, and correct the wrong one.")
    if guide_stem_clearance_written is None and not another_size[0] <= guide_stem_clearance <= another_size[1]:
        return not_applicable("a guide of another size, which stem-size-matches-everywhere reports")
    if guide_material is None:
        return lacking("guide_material")
    row = f"{side_name}_{'bronze' if guide_material in ('bronze', 'bronze_liner') else 'iron'}"
    more = 0.0
    if side_name == "exhaust":
        more += more_for["nickel_alloy"] if str(valve_material).startswith("nickel") else 0
        hot = (boost_pressure is not None and boost_pressure > much_boost) or (nitrous_power is not None and nitrous_power > much_nitrous)
        more += more_for["heat"] if hot or duty == "marine" else 0
        more += more_for["sodium_filled"] if valve_build == "sodium_filled" else 0
    low, high = Length(warning_below[row] + more), Length(warning_above[row] + more)
    verdict = within(guide_stem_clearance, error=(Length(error_below[row] + more), Length(error_above[row] + more)), warning=(low, high))
    if valve_stem_diameter is not None and not smallest_stem <= valve_stem_diameter <= largest_stem:
        verdict.within_level("warning")
    if valve_stem_diameter is None:
        verdict.saying(fix="Hone or ream the guide.")
    else:
        fine = METRIC_STEP if getattr(valve_stem_diameter, "unit", "") == "mm" else STEP
        verdict.telling(bore_wanted=Length(round((valve_stem_diameter + (low + high) / 2) / fine) * fine))
    if verdict.facts.get("side") == "above":
        verdict.saying(fix="Have the guide replaced or lined" + ("" if valve_stem_diameter is None else " and finished to {bore_wanted} for this stem")
                       + ", or fit a valve with a larger stem; never knurl a guide for racing.")
    return verdict.telling(low=low, high=high)


BOTH = """
intake:
  valve: {stem_diameter: 0.3134 in}
  guide: {material: bronze, bore: 0.3152 in}
exhaust:
  valve: {stem_diameter: 0.3134 in}
  guide: {material: bronze, bore: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The exhaust stem runs with {value}, tighter than the intake stem with {limit}.",
    fix="Look whether the two sides were mixed up; the exhaust stem is the hotter one and wants as much or more.",
    source="common practice, no source",
    points_at=("exhaust_guide_stem_clearance",),
    conforming=(BOTH % ("0.3156 in", ""), BOTH % ("0.3152 in", "")),
    nonconforming=BOTH % ("0.3148 in", "# <-"),
)
def exhaust_guide_is_looser(
    side_name: Choice, intake_guide_stem_clearance: Length, exhaust_guide_stem_clearance: Length,
    intake_guide_material: Choice = None, exhaust_guide_material: Choice = None,
):
    """The exhaust stem runs hundreds of degrees hotter and grows into its play first.

    Compared only between guides of one material.
    """
    if side_name != "exhaust":
        return not_applicable("asked on the exhaust side")
    if None not in (intake_guide_material, exhaust_guide_material) and intake_guide_material != exhaust_guide_material:
        return not_applicable("guides of two materials")
    return at_least(exhaust_guide_stem_clearance, warning=intake_guide_stem_clearance)


TAPER = """
intake:
  guide: {taper: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The guide is {guide_taper} wider at one end; keep within {limit}.",
    fix="Hone it straight for a larger stem, or replace it.",
    source="common practice, no source",
    when={"guide_taper": given},
    conforming=(TAPER % ("0.0002 in", ""), TAPER % ("0.0005 in", "")),
    nonconforming=TAPER % ("0.0008 in", "# <-"),
)
def guide_is_straight(guide_taper: Length, *, most: Length = q("0.0005 in")):
    """A bell-mouthed guide lets the valve tip over just as it lands, and the seat wears to one side."""
    return at_most(guide_taper, warning=most)


ORDER = """
heads: {seats_cut: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="machining",
    says="The seats were cut before the guides were finished.",
    fix="Finish the guides, then cut the seats with a pilot in the finished guide and measure the runout.",
    source="common practice, no source",
    when={"head_seats_cut": given},
    conforming=ORDER % ("after_guides", ""),
    nonconforming=ORDER % ("before_guides", "# <-"),
)
def guides_are_finished_before_seats(head_seats_cut: Choice):
    """A seat is cut to the axis of its guide; honing the guide afterward moves the axis."""
    return require(head_seats_cut == "after_guides")
