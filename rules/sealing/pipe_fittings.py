"""Taper fittings and senders: the right standard, not too far in, and still earthed."""

from buildlint.mechanics.threads import same_thread, thread_name
from buildlint.rulebook import *

PIPE = """
sealing:
  pipe_fittings:
    - {place: %s, thread: %s, hole_thread: %s%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The fitting for the {place} is {male}, its hole {female}{why}.",
    fix="Take a fitting of {female}, or an adapter; never force one into the other.",
    source="ASME B1.20.1; ISO 7-1; ISO 228-1",
    when={"pipe_fittings": given},
    points_at=("pipe_fittings",),
    conforming=PIPE % ("oil pressure sender", "1/8-27 NPT", "1/8-27 NPT", "", ""),
    nonconforming=(PIPE % ("oil pressure sender", "1/8-27 NPT", "1/8-28 BSPT", "", "# <-"),
                   PIPE % ("heater", "1/2-14 NPT", "1/2-14 BSPT", "", "# <-")),
)
def pipe_threads_are_one_standard(pipe_fittings: Entries):
    """American and British taper threads start into each other and seal once; then the flanks of 60 and 55 degrees weep.

    A taper fitting in a straight hole holds on its last thread and cracks the boss.
    """
    asked = False
    for row in pipe_fittings:
        male, female = row.get("thread"), row.get("hole_thread")
        if male is None or female is None:
            continue
        asked = True
        if not same_thread(male, female):
            why = ": a taper in a straight hole" if male.taper and not female.taper else ": 60 and 55 degree flanks" if male.flank != female.flank else ""
            return require(False).at(f"pipe_fittings_{row['number']}").telling(
                place=row.get("place") or f"fitting {row['number']}", male=thread_name(male), female=thread_name(female), why=why)
    return passes() if asked else not_applicable("threads are not written")


TURNS = ", turns_past_hand_tight: %s, material: %s"


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The fitting for the {place} is turned {turns} past hand tight{where}.",
    fix="Two turns are right, three the most; if it does not seal by then, look at thread and sealant, not at the wrench.",
    source="hand-tight and wrench turns of ASME B1.20.1, from memory; common practice, no source",
    when={"pipe_fittings": given},
    points_at=("pipe_fittings",),
    conforming=PIPE % ("coolant sender", "3/8-18 NPT", "3/8-18 NPT", TURNS % ("2", "aluminum_cast"), ""),
    nonconforming=(PIPE % ("coolant sender", "3/8-18 NPT", "3/8-18 NPT", TURNS % ("4", "aluminum_cast"), "# <-"),
                   PIPE % ("coolant sender", "3/8-18 NPT", "3/8-18 NPT", TURNS % ("1", "cast_iron"), "# <-")),
)
def pipe_fitting_turns_in_moderately(pipe_fittings: Entries, *, least: Ratio = q("1.5", "ratio"), most: Ratio = q("3", "ratio")):
    """A taper is a wedge: the fourth turn does not seal better, it splits the boss, in aluminum on the first warm-up."""
    asked = False
    for row in pipe_fittings:
        turns = row.get("turns_past_hand_tight")
        if turns is None:
            continue
        asked = True
        verdict = within(Ratio(turns), least, most)
        if verdict.kind == "fail":
            soft = (row.get("material") or "").startswith("aluminum")
            where = " into aluminum" if soft and turns > most else "; it may not seal" if turns < least else ""
            return verdict.at(f"pipe_fittings_{row['number']}").telling(place=row.get("place") or f"fitting {row['number']}",
                turns="1 turn" if turns == 1 else f"{turns:g} turns", where=where)
    return passes() if asked else not_applicable("turns are not written")


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The {place} earths through its thread, and tape is to go on it.",
    fix="Use PTFE paste and leave the first thread bare, or check it with a meter after fitting.",
    source="common practice, no source",
    when={"pipe_fittings": given},
    points_at=("pipe_fittings",),
    conforming=(PIPE % ("oil pressure sender", "1/8-27 NPT", "1/8-27 NPT", ", product: ptfe_paste", ""),
                PIPE % ("heater hose", "1/2-14 NPT", "1/2-14 NPT", ", product: ptfe_tape", "")),
    nonconforming=PIPE % ("oil pressure sender", "1/8-27 NPT", "1/8-27 NPT", ", product: ptfe_tape", "# <-"),
)
def sender_keeps_its_ground(pipe_fittings: Entries):
    """A gauge that reads nothing because its sender hangs in tape has cost more engines' owners a bad evening than low oil."""
    asked = False
    for row in pipe_fittings:
        place = (row.get("place") or "").lower()
        if not any(word in place for word in ("sender", "sensor", "switch")):
            continue
        asked = True
        if row.get("product") == "ptfe_tape":
            return require(False).at(f"pipe_fittings_{row['number']}").telling(place=row["place"])
    return passes() if asked else not_applicable("no sender is written")
