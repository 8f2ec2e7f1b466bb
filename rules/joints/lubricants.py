"""What lies on thread and face: it decides what a torque is worth."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, NUT_FACTORS, THREAD_SEALANTS
from buildlint.tables.sealants import THREAD_SUITS

NAMED = """
build: {stage: assembly}
joints:
  %s: {kind: %s, thread: 7/16-20, torque: 70 lbf-ft%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="Nothing is written of the lubricant {where}.",
    fix="Write lubricant for the thread and face_lubricant for the face that turns; where there is none, write dry.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-8; VDI 2230 friction classes",
    when={"torque": given},
    points_at=("torque",),
    conforming=(NAMED % ("head", "stud", ", lubricant: moly_paste, face_lubricant: moly_paste", ""),
                NAMED % ("head", "bolt", ", torque_given_for: engine_oil, torque_source: maker", ""),
                NAMED % ("rocker_intake", "shouldered_stud", ", thread_product: ptfe_paste", ""),
                NAMED % ("oil_pan", "bolt", "", "")),
    nonconforming=(NAMED % ("head", "stud", "", "# <-"), NAMED % ("head", "stud", ", lubricant: moly_paste", "# <-")),
)
def critical_fastener_names_its_lubricant(
    torque: Torque, joint_name: Choice, diameter: Length = None, sliding_product: Choice = None, face_lubricant: Choice = None,
    torque_given_for: Choice = None, torque_source: Choice = None, kind: Choice = None, tightening: Choice = None, *,
    slippery: Ratio = q("0.10", "ratio"), sticky: Ratio = q("0.30", "ratio"),
):
    """Without the lubricant a torque says little: the tension of a critical joint may lie anywhere within a factor of three.

    A maker's torque that names its lubricant speaks for thread and face. The face alone is a warning: half of the
    torque is spent there. A shouldered stud has no nut that turns, and measured stretch does not ask for friction.
    """
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("not a critical joint")
    by_maker = torque_given_for is not None and torque_source in ("maker", None) and sliding_product == torque_given_for
    needs_face = not by_maker and kind != "shouldered_stud" and tightening != "stretch"
    missing = {"lubricant": "on the thread"} if sliding_product is None else {}
    if needs_face and face_lubricant is None:
        missing["face_lubricant"] = "under the turning face"
    if not missing:
        return passes()
    verdict = wanting(*missing).telling(where=" and ".join(missing.values()))
    if "lubricant" not in missing:
        return verdict.within_level("warning")
    if diameter is None:
        return verdict
    return verdict.telling(least=Force(torque / sticky / diameter), most=Force(torque / slippery / diameter)).saying(
        "Nothing is written of the lubricant {where}; the same torque can then make anything from {least} to {most}.")


GIVEN_FOR = """
joints:
  %s: {kind: %s, thread: 7/16-20, %s, torque: 70 lbf-ft, torque_given_for: %s}  # <-
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The torque is given for {given_for}, but {on_thread}{face}: the tension comes out "
         "{share} of what is meant.",
    fix="Ask the maker for the torque with {with_what}; by the usual nut factors it would be {converted_torque}, to be "
        "written with torque_source: converted.",
    source="T = K d F, Shigley Eq. 8-27; converting by the ratio of nut factors: common practice, no source",
    when={"torque_given_for": given, "torque": given},
    points_at=("torque_given_for", "lubricant"),
    conforming=tuple((GIVEN_FOR % row).replace("  # <-", "") for row in (
        ("head", "stud", "lubricant: moly_paste, face_lubricant: moly_paste", "moly_paste"),
        ("head", "bolt", "thread_product: ptfe_paste", "ptfe_paste"),
        ("head", "stud", "lubricant: moly_paste, thread_product: ptfe_paste", "moly_paste"),
        ("oil_pan", "bolt", "lubricant: moly_paste", "extreme_pressure_paste"),
    )),
    nonconforming=tuple(GIVEN_FOR % row for row in (
        ("head", "stud", "lubricant: moly_paste, face_lubricant: moly_paste", "engine_oil"),
        ("head", "stud", "lubricant: engine_oil, face_lubricant: engine_oil", "moly_paste"),
        ("head", "stud", "lubricant: extreme_pressure_paste", "dry"),
        ("head", "bolt", "thread_product: ptfe_paste", "engine_oil"),
    )),
)
def torque_belongs_to_lubricant_used(
    torque_given_for: Choice, torque: Torque, sliding_product: Choice = None, lubricant_share: Fraction = None,
    joint_name: Choice = None,
    torque_source: Choice = None, face_lubricant: Choice = None, thread_product: Choice = None, hole_opens_into: Choice = None,
    hole_end: Choice = None, *,
    critical_beyond: Fraction = q("0.15", "fraction"), warning_beyond: Fraction = q("0.10", "fraction"),
):
    """The wrench feels friction, not tension: a torque printed for oil overtightens by a quarter on moly.

    Charts differ in what they take off; here it is the ratio of the usual nut factors. Converting carries the doubt
    of both figures, so the maker's own torque for the lubricant used is better. Sealant on the thread of a bolt
    replaces the lubricant the torque was printed for; a product that is itself wrong for its hole is another rule's.
    """
    given_for = "dry" if torque_given_for == "none" else torque_given_for
    if given_for == sliding_product or torque_source in ("converted", "computed"):
        return passes()
    if lubricant_share is None:
        return not_applicable("the friction of one of the two is not known")
    wet = hole_opens_into in ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port")
    wrong = thread_product is not None and hole_opens_into not in THREAD_SUITS.get(thread_product, ())
    if wet and wrong or hole_opens_into == "nothing" and hole_end == "blind" and thread_product in THREAD_SEALANTS:
        return not_applicable("the product on the thread is asked about")
    share = lubricant_share
    face = ""
    if face_lubricant not in (None, sliding_product):
        face = f" and {face_lubricant.replace('_', ' ')} under the turning face"
    critical = critical_beyond if joint_name in CRITICAL_JOINTS else None
    verdict = at_most(Fraction(abs(share - 1)), error=critical, warning=warning_beyond)
    dry = sliding_product in (None, "dry", "none")
    named = "a dry thread" if dry else sliding_product.replace("_", " ").replace("ptfe", "PTFE")
    verdict.telling(on_thread="the thread is dry" if dry else f"{named} is on the thread", with_what=named,
                    given_for="a dry thread" if given_for == "dry" else given_for.replace("_", " ").replace("ptfe", "PTFE"))
    return verdict.telling(share=f"{share:.0%}", converted_torque=Torque(torque / share), face=face)


FACE = """
joints:
  head:
    {kind: stud, thread: 7/16-20, lubricant: moly_paste, face_lubricant: moly_paste, bearing_diameter: %s, nut_factor: %s,  # <-
     washer: {kind: hardened_flat, inside_diameter: 0.455 in}}
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="A nut factor of {short_form} is counted with; with the real face of {bearing_diameter} and the friction of its "
         "lubricants it comes out at {long_form}.",
    fix="Measure the nut factor on these parts and write it, or take the torque for a factor of {long_form}: a wide flange "
        "spends more of the torque, a small twelve-point nut less.",
    source="VDI 2230-1, torque equation",
    when={"bearing_diameter": given},
    points_at=("bearing_diameter", "nut_factor"),
    compares=("nut_factor",),
    conforming=((FACE % ("0.625 in", "0.11")).replace("  # <-", ""), """
        joints:
          head: {kind: stud, thread: 7/16-20, lubricant: moly_paste, face_lubricant: moly_paste, bearing_diameter: 0.625 in}
        """),
    nonconforming=(FACE % ("0.625 in", "0.22"), """
        joints:
          cover: {kind: bolt, thread: 1/4-20, lubricant: dry, face_lubricant: dry, bearing_diameter: 0.75 in}  # <-
        """),
)
def nut_factor_fits_friction_pair(
    bearing_diameter: Length, nut_factor: Ratio = None, nut_factor_long_form: Ratio = None, nut_factor_written: Ratio = None,
    sliding_product: Choice = None, *,
    note_beyond: Fraction = q("0.15", "fraction"), warning_beyond: Fraction = q("0.30", "fraction"),
):
    """Half of the torque is spent under the turning face, so a wide flange or a small nut shifts what the wrench buys.

    The table's factor is fitted to ordinary faces. Small differences lie within the doubt of any friction figure, and
    a measured factor within the usual range of its lubricant is believed.
    """
    if nut_factor is None or nut_factor_long_form is None:
        return not_applicable("friction or thread is not known")
    low, _, high = NUT_FACTORS.get(sliding_product, (0, 0, 0))
    if nut_factor_written is not None and low <= nut_factor_written <= high:
        return passes()
    verdict = at_most(Fraction(abs(nut_factor_long_form / nut_factor - 1)), warning=warning_beyond, note=note_beyond)
    return verdict.telling(short_form=f"{nut_factor:.3f}", long_form=f"{nut_factor_long_form:.3f}")
