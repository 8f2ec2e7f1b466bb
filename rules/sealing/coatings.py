"""Paint and powder: off the faces that clamp and seal, baked before the seals go in, and no blasting dust left behind."""

from buildlint.mechanics.bolt import in_series
from buildlint.rulebook import *
from buildlint.tables.fasteners import GASKETED_COVERS
from buildlint.tables.sealants import SEAL_HEAT_LIMIT

FACES = """
joints:
  %s: {kind: bolt, clamped: {coated_faces: %s}}  %s
"""
LAYER_CREEP = 0.20  # share of a paint or powder layer that creeps away under a head: common practice, no source


def _part(row, joint_name):
    name = (row.get("part") or "").lower().replace(" ", "_")
    return bool(name) and (joint_name in name or name in joint_name or name.rstrip("s") == joint_name)


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{what} {where} of the {joint_name} joint{loss}.",
    fix="Mask gasket faces, threads and washer seats before coating, or scrape them bare; write clamped coated_faces: masked.",
    source="common practice, no source; loss by creep of a soft layer over the joint's stiffness",
    points_at=("clamped_coated_faces", "kind"),
    conforming=(FACES % ("water_pump", "none", ""), FACES % ("timing_cover", "masked", ""), """
        joints: {valve_cover: {kind: bolt}}
        sealing:
          coated_parts:
            - {part: valve cover, coating: powder, masked: [gasket_faces, threads, washer_seats]}
        """),
    nonconforming=(FACES % ("water_pump", "powder", "# <-"), FACES % ("valve_cover", "paint", "# <-"), """
        joints: {valve_cover: {kind: bolt}}
        sealing:
          coated_parts:
            - {part: valve cover, coating: powder, masked: [threads]}  # <-
        """),
)
def coating_stays_off_gasket_faces(
    joint_name: Choice, clamped_coated_faces: Choice = None, coated_parts: Entries = None, preload: Force = None,
    bolt_stiffness: Stiffness = None,
    clamped_stiffness: Stiffness = None, kind: Choice = None, *, usual_layer: Length = q("75 um"),
):
    """Paint and powder creep under a bolt until it is loose, and a gasket on them is clamped to the paint, not to the part.

    A few hundredths of a millimeter are half the stretch of a short bolt. On the flange of a sheet cover it is a warning.
    """
    level = "warning" if joint_name in ("valve_cover", "oil_pan", "valley_cover") else "error"
    if clamped_coated_faces in ("paint", "powder", "plating"):
        loss = ""
        if None not in (preload, bolt_stiffness, clamped_stiffness) and clamped_coated_faces != "plating":
            share = LAYER_CREEP * usual_layer * in_series(bolt_stiffness, clamped_stiffness) / preload
            loss = f"; a usual layer takes about {min(share, 1.0):.0%} of its tension with it"
        return require(False, "warning" if clamped_coated_faces == "plating" else level).at("clamped_coated_faces").telling(
            what=clamped_coated_faces.capitalize(), where="lies on the clamped faces", loss=loss)
    rows = [row for row in coated_parts or () if _part(row, joint_name)]
    for row in rows:
        masked = " ".join(row.get("masked") or ()).lower()
        missing = [text for text, words in (("gasket faces", ("gasket", "face")), ("threads", ("thread",)),
                                            ("washer seats", ("washer", "seat")))
                   if not any(word in masked for word in words)]
        if missing:
            serious = level if "gasket faces" in missing or "washer seats" in missing else "warning"
            return require(False, serious).at(f"coated_parts_{row['number']}").telling(
                what=(row.get("coating") or "coating").capitalize(), where="is not kept off the " + " and the ".join(missing),
                loss="")
    if clamped_coated_faces is None and not rows:
        return not_applicable("nothing is coated, as far as is written")
    return passes()


BAKED = """
sealing:
  rear_main_seal: {kind: one_piece, material: nitrile}
  coated_parts:
    - {part: %s, coating: powder, cure_temperature: %s, cure_time: %s}
assembly:
  steps:
    - {step: %s}
    - {step: %s}  %s
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The {part} is baked at {cure} with the {seal} already fitted; {material} stands {limit}.",
    fix="Bake first and fit the seals afterwards.",
    source="powder cured at 177 to 204 degC; heat limits of rubbers, from memory",
    when={"step": ("coat_and_mask",), "coated_parts": given},
    points_at=("step",),
    conforming=BAKED % ("block", "190 degC", "15 min", "coat_and_mask", "rear_seal", ""),
    nonconforming=BAKED % ("block", "190 degC", "15 min", "rear_seal", "coat_and_mask", "# <-"),
)
def coating_cure_spares_seals(
    step: Choice, coated_parts: Entries, earlier_steps: List, rear_main_seal_material: Choice = None,
    front_seal_material: Choice = None,
    intake_seal_material: Choice = None, exhaust_seal_material: Choice = None,
):
    """An hour in the powder oven ages a lip by years; it leaks from the first day."""
    seals = [("rear main seal", rear_main_seal_material, "rear_seal"), ("front seal", front_seal_material, "front_cover"),
             ("intake valve seals", intake_seal_material, "heads_assembled"),
             ("exhaust valve seals", exhaust_seal_material, "heads_assembled")]
    fitted = [(name, material) for name, material, when in seals if when in earlier_steps and material in SEAL_HEAT_LIMIT]
    hottest = max((row for row in coated_parts if row.get("cure_temperature") is not None),
                  key=lambda row: row["cure_temperature"], default=None)
    if not fitted or hottest is None:
        return not_applicable("no seal is fitted before, or no cure is written")
    name, material = min(fitted, key=lambda pair: SEAL_HEAT_LIMIT[pair[1]])
    verdict = at_most(hottest["cure_temperature"], SEAL_HEAT_LIMIT[material])
    return verdict.telling(part=hottest.get("part") or "part", cure=hottest["cure_temperature"], seal=name, material=material)


@rule(
    scope="step",
    level="warning",
    due="machining",
    says="Heat-treated aluminum ({part}) is baked at {cure}; {hottest} for {longest} spares its temper.",
    fix="Use a low-bake powder or paint, at most {hottest:down} for {longest:down}.",
    source="powder practice: 177 to 204 degC for 10 to 20 minutes costs a T6 casting little; common practice, no source",
    when={"step": ("coat_and_mask",), "coated_parts": given},
    points_at=("step",),
    conforming="heads: {material: aluminum_356_t6}" + BAKED % ("heads", "190 degC", "15 min", "coat_and_mask", "rear_seal", ""),
    nonconforming=("heads: {material: aluminum_356_t6}" + BAKED % ("heads", "230 degC", "15 min", "receive_and_count",
                                                                   "coat_and_mask", "# <-"),
                   "heads: {material: aluminum_356_t6}" + BAKED % ("heads", "200 degC", "60 min", "receive_and_count",
                                                                   "coat_and_mask", "# <-")),
)
def coating_cure_spares_temper(
    step: Choice, coated_parts: Entries, head_material: Choice = None, block_material: Choice = None,
    manifold_material: Choice = None, *,
    hottest: Temperature = q("205 degC"), longest: Time = q("30 min"),
):
    """Heat-treated aluminum goes on aging in the oven and comes out softer: seats loosen, threads strip."""
    metals = {"head": head_material, "block": block_material, "manifold": manifold_material}
    treated = ("aluminum_356_t6", "aluminum_6082", "aluminum_7075")
    asked = False
    for row in coated_parts:
        name = (row.get("part") or "").lower()
        if not any(part in name and metal in treated for part, metal in metals.items()) or row.get("cure_temperature") is None:
            continue
        asked = True
        hot = row["cure_temperature"] > hottest
        long = row.get("cure_time") is not None and row["cure_time"] > longest
        if hot or long:
            verdict = require(False).telling(part=row["part"], cure=row["cure_temperature"], time=row.get("cure_time") or "")
            return verdict if not long else verdict.saying(
                "Heat-treated aluminum ({part}) is baked at {cure} for {time}; {hottest} for {longest} spares its temper.")
    return passes() if asked else not_applicable("no treated aluminum is baked, as far as is written")


WASHED = """
assembly:
  steps:
    - {step: %s}
    - {step: %s}  %s
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="Parts are blasted and coated {when_text}.",
    fix="Plan the final wash after coating and masking, with brushes through every passage, and blow out the threads.",
    source="common practice, no source",
    when={"step": ("coat_and_mask",)},
    points_at=("step",),
    conforming=WASHED % ("coat_and_mask", "final_wash", ""),
    nonconforming=(WASHED % ("final_wash", "coat_and_mask", "# <-"), """
        block: {last_washed_on: 2026-04-20}
        sealing:
          coated_parts:
            - {part: block, coating: paint, done_on: 2026-04-28}
        assembly:
          steps:
            - {step: coat_and_mask}  # <-
            - {step: final_wash}
        """),
)
def blast_media_is_washed_out(step: Choice, earlier_steps: List, later_steps: List, coated_parts: Entries = None,
                              block_last_washed_on: Date = None):
    """Glass bead and grit hide in oil passages and threads and come out into the bearings with the first oil."""
    dates = [row["done_on"] for row in coated_parts or () if row.get("done_on") and "block" in (row.get("part") or "").lower()]
    if block_last_washed_on is not None and dates and max(dates) > block_last_washed_on:
        return require(False).at("step").telling(when_text=f"on {max(dates)}, after the block's last wash on {block_last_washed_on}")
    if "final_wash" in later_steps:
        return passes()
    if "final_wash" in earlier_steps:
        return require(False).telling(when_text="after the final wash")
    return not_applicable("no final wash is listed; the list of standard steps asks for it")


@rule(
    scope="joint",
    level="reminder",
    due="handover",
    says="Go over the {joint_name} bolts again a day after they were tightened, and after the first heat.",
    fix="Evenly and lightly: squeeze the gasket back to where it was, not thinner.",
    source="common practice, no source",
    when={"joint_name": GASKETED_COVERS},
    conforming="joints: {valve_cover: {kind: bolt}}",
)
def soft_gasket_torque_is_rechecked(joint_name: Choice, joint_leads: YesNo = True):
    """Cork and rubber creep for a day; so does paint under a flange. The oil finds what they let go."""
    if not joint_leads or joint_name in ("exhaust_manifold", "distributor_clamp", "thermostat_housing", "water_pump",
                                         "intake_manifold"):
        return not_applicable("asked of covers with soft gaskets")
    return review()
