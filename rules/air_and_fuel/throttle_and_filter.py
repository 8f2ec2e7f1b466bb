"""What the air must pass on its way in: filter, duct, throttle or carburetor, at the power peak."""

from buildlint.numeric import PI
from buildlint.rulebook import *
from buildlint.tables.duties import BREATHING

ENGINE = """
build: {duty: %s, induction: natural, fuel: pump_gasoline, peak_power: 500 hp, peak_power_speed: 6200 rpm, volumetric_efficiency: 0.95}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
induction:
"""

BODY = ENGINE + """  throttle: {count: %s, bore: %s, shaft_diameter: 10 mm}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At the power peak the open throttle loses {value}; {side} {limit} {effect}.",
    fix="A bore of {bore_to_reach} each would lose {aim}; a thin blade and a halved shaft come before a jump in bore.",
    source="Bernoulli with a coefficient of 0.85; limits common practice, no source",
    when={"throttle_bore": given},
    points_at=("throttle_bore",),
    conforming=(BODY % ("street_strip", 1, "90 mm", ""), BODY % ("drag_race", 1, "105 mm", "")),
    nonconforming=(BODY % ("street_strip", 1, "80 mm", "# <-"), BODY % ("drag_race", 1, "90 mm", "# <-"),
                   BODY % ("street", 4, "80 mm", "# <-")),
)
def throttle_suits_air_demand(
    throttle_pressure_loss: Pressure, throttle_bore: Length, duty: Choice, manifold_pressure_absolute: Pressure = None,
    throttle_placed: Choice = None, *, atmosphere: Pressure = q("101.325 kPa"), warning_above: Pressure = q("3 kPa"),
    race_note_above: Pressure = q("1.5 kPa"), street_note_below: Pressure = q("0.3 kPa"), aim: Pressure = q("1.4 kPa"),
):
    """Each kilopascal lost in the throttle is a percent of power; a bore far larger than needed opens like a switch.

    Three kilopascals are a street figure, half of it a race one; behind a compressor the same share of more pressure
    passes. The loss counts the shaft's shadow and the air the engine takes by its own volumetric efficiency.
    """
    kind, times = BREATHING[duty], 1.0
    if manifold_pressure_absolute is not None and throttle_placed != "before_compressor":
        times = max(manifold_pressure_absolute / atmosphere, 1.0)
    if kind == "street" and throttle_pressure_loss < street_note_below:
        verdict = at_least(Pressure(throttle_pressure_loss, "kPa"), note=street_note_below)
    else:
        verdict = at_most(Pressure(throttle_pressure_loss, "kPa"),
                          warning=times * warning_above,
                          note=times * race_note_above if kind == "race" else None)
    over = throttle_pressure_loss > street_note_below
    return verdict.telling(side="above" if over else "below", effect="it costs power" if over else "it opens like a switch",
                           bore_to_reach=Length(throttle_bore * (throttle_pressure_loss / aim) ** 0.25, throttle_bore.unit))


FILTER = ENGINE % "street_strip" + """  air_filter: {area: %s, duct_area: %s, pressure_loss: %s, lid_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The way in of the air is too narrow.",
    fix="Take a larger filter, a wider duct, a higher lid.",
    source="common practice, no source",
    when={"air_filter_area": given},
    points_at=("air_filter_area", "air_filter_duct_area", "air_filter_lid_gap"),
    conforming=FILTER % ("132 in^2", "12 in^2", "0.5 kPa", "1.5 in", ""),
    nonconforming=(FILTER % ("80 in^2", "12 in^2", "0.5 kPa", "1.5 in", "# <-"), FILTER % ("92 in^2", "12 in^2", "0.5 kPa", "1.5 in", "# <-"),
                   FILTER % ("132 in^2", "8 in^2", "0.5 kPa", "1.5 in", "# <-"),
                   FILTER % ("132 in^2", "12 in^2", "1.6 kPa", "1.5 in", "# <-"),
                   FILTER % ("132 in^2", "12 in^2", "0.5 kPa", "0.9 in", "# <-")),
)
def air_filter_suits_air_demand(
    air_filter_area: Area, displacement: Volume, peak_power_speed: Rpm, air_volume_flow: Flow, air_filter_duct_area: Area = None,
    air_filter_pressure_loss: Pressure = None, air_filter_lid_gap: Length = None, charge_density_factor: Ratio = None, *,
    face_speed: Speed = q("4.41 m/s"), short_by: Fraction = q("0.05", "fraction"), duct_speed: Speed = q("45 m/s"), loss: Pressure = q("1.0 kPa"),
    lid: Length = q("30 mm"),
):
    """A filter that is too small, a thin duct or a lid too near the horn takes away what heads and cam were paid for.

    Paper wants a face, pleats not counted, of displacement times speed over 20 839 in cubic inches and rpm: 4.41 m/s of
    swept air; a face a twentieth smaller is not worth a word. A boosted engine draws more by its charge density. A lid wants 30 mm above vents and horn.
    """
    wanted = displacement * peak_power_speed / (4 * PI) * (charge_density_factor or 1.0) / face_speed
    checks = [
        (passes() if air_filter_area >= wanted * (1 - short_by) else at_least(Area(air_filter_area), wanted)).saying(
            "The filter has a face of {value}; at {peak_power_speed} this engine asks for {limit}.",
            "Take a filter of {limit} or two of half.")
    ]
    if air_filter_duct_area is not None:
        speed = air_volume_flow / air_filter_duct_area
        unit = "m/s" if air_filter_duct_area.unit.startswith(("mm", "cm", "m")) else "ft/s"
        checks.append(
            at_most(Speed(speed, unit), duct_speed).telling(duct_to_reach=Area(air_filter_duct_area * speed / duct_speed)).saying(
                "The air runs through the duct at {value}; keep it below {limit}.", "A duct of {duct_to_reach:up} would do."))
    if air_filter_pressure_loss is not None:
        checks.append(
            at_most(Pressure(air_filter_pressure_loss), loss).saying(
                "Filter and duct lose {value} at full flow; keep it below {limit}.",
                "Take a larger filter or a wider, straighter duct."))
    if air_filter_lid_gap is not None:
        checks.append(at_least(Length(air_filter_lid_gap), lid).telling(more=Length(lid - air_filter_lid_gap)).saying(
            "The lid stands {value} above the horn; it wants {limit}.", "Raise the lid by {more:up}, or flatten the base."))
    return next((verdict for verdict in checks if verdict.kind == "fail"), checks[0])


CARBURETOR = ENGINE + """  manifold: {kind: %s}
  carburetor: {count: %s, flow: %s, %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At the power peak the carburetor pulls {value} of depression; {limit} is the {end} for this duty.",
    fix="{flow_low:up} to {flow_high:down} each, at {rating}, would suit; vacuum secondaries or annular boosters forgive more.",
    source="Bernoulli; four-barrels are rated at 1.5 inHg, two-barrels at 3.0; limits common practice, no source",
    when={"carburetor_flow": given},
    points_at=("carburetor_flow",),
    conforming=(CARBURETOR % ("street_strip", "single_plane", 1, "750 ft^3/min", "rated_at: 1.5 inHg, secondaries: mechanical",
                              ""),
                CARBURETOR % ("street", "dual_plane", 1, "650 ft^3/min", "secondaries: vacuum", "")),
    nonconforming=(CARBURETOR % ("oval_race, sanction: two-barrel class", "single_plane", 1, "500 ft^3/min", "rated_at: 3.0 inHg", "# <-"),
                   CARBURETOR % ("street_strip", "dual_plane", 1, "500 ft^3/min", "rated_at: 1.5 inHg", "# <-"),
                   CARBURETOR % ("street", "dual_plane", 2, "750 ft^3/min", "rated_at: 1.5 inHg", "# <-"),
                   CARBURETOR % ("street", "dual_plane", 1, "500 ft^3/min", "secondaries: none_two_barrel", "# <-")),
)
def carburetor_suits_air_demand(
    carburetor_depression: Pressure, carburetor_flow: Flow, duty: Choice, carburetor_rated: Pressure,
    manifold_kind: Choice = None,
    carburetor_secondaries: Choice = None, sanction: Text = None, *, note_below: Pressure = q("0.3 inHg"), aim_low: Pressure = q("0.6 inHg"),
    warning_above={"one_and_two_barrel": q("3.0 inHg"), "street": q("1.8 inHg"), "strip": q("1.8 inHg"), "race": q("1.8 inHg")},
    note_above={"one_and_two_barrel": q("2.5 inHg"), "street": q("1.6 inHg"), "strip": q("1.4 inHg"), "race": q("1.2 inHg")},
    aim_high={"one_and_two_barrel": q("2.0 inHg"), "street": q("1.5 inHg"), "strip": q("1.2 inHg"), "race": q("0.9 inHg")},
):
    """Too small a carburetor strangles the top, too large a one has no signal to draw fuel at the bottom.

    Ratings at other depressions are converted by the root of their quotient. One- and two-barrels on mild street engines
    pull up to 3 inHg, which is what they are rated at. Where a rule book is written under build.sanction it may be that
    book which prescribes the carburetor, and a small one is a note. Individual runners pull in pulses and ask
    for more than the mean flow says, so they are not judged.
    """
    if manifold_kind == "individual_runner":
        return not_applicable("individual runners pull in pulses")
    kind = BREATHING[duty]
    if kind == "street" and carburetor_secondaries == "none_two_barrel":
        kind = "one_and_two_barrel"
    unit = getattr(carburetor_rated, "unit", "") or "inHg"
    if carburetor_depression < aim_low:
        verdict = at_least(Pressure(carburetor_depression, unit), note=note_below)
    else:
        verdict = at_most(Pressure(carburetor_depression, unit), warning=warning_above[kind], note=note_above[kind])
    if sanction not in (None, "none") and carburetor_depression >= aim_low:
        verdict.within_level("note").saying(
            fix="Where the rule book prescribes this one, plan power and cam for its air; else {flow_low:up} to {flow_high:down} each, at {rating}, would suit.")
    low, high = ((carburetor_depression / aim) ** 0.5 * carburetor_flow for aim in (aim_high[kind], aim_low))
    return verdict.telling(
        end="least" if carburetor_depression < aim_low else "most", rating=Pressure(carburetor_rated, unit),
        flow_low=Flow(low, carburetor_flow.unit), flow_high=Flow(high, carburetor_flow.unit))
