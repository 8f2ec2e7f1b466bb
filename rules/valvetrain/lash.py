"""Whether solid lifters get the lash their lobes were ground for, cold as well as hot."""

from buildlint.rulebook import *

SOLID = ("solid_flat", "solid_roller")

SAME_SETTING = q("0.0004 in")  # what no feeler gauge tells apart

LASH = """
lifters: {kind: solid_roller}
intake:
  lash_hot: 0.018 in
exhaust:
  %s  %s
  card_lash: %s
  card_lash_state: %s
"""


@rule(
    scope="side",
    level="error",
    due="assembly",
    says="The lash is set to {value}; {limit_is} {limit}.",
    fix="{cure}",
    source="common practice, no source; the trade press allows 0.004 in either way of the card",
    when={"lifter_kind": SOLID},
    points_at=("lash_hot", "lash_cold"),
    conforming=(LASH % ("lash_hot: 0.020 in", "", "0.020 in", "hot"), LASH % ("lash_hot: 0.024 in", "", "0.020 in", "hot"),
                LASH % ("lash_cold: 0.010 in", "", "0.010 in", "cold")),
    nonconforming=(LASH % ("lash_hot: 0.026 in", "# <-", "0.020 in", "hot"), """
        lifters: {kind: solid_flat}
        intake: {card_lash: 0.25 mm, card_lash_state: cold, lash_cold: 0.25 mm}
        exhaust:
          card_lash: 0.30 mm
          card_lash_state: cold
          lash_cold: 0.25 mm  # <-
        """, "heads: {material: aluminum_356_t6}\n" + (LASH % ("lash_hot: 0.020 in", "# <-", "0.020 in", "cold")).lstrip(), LASH % ("lash_hot: 0.018 in", "# <-", "0.012 in", "hot"),
                   LASH % ("lash_hot: 0.040 in", "# <-", "0.020 in", "hot"), LASH % ("lash_cold: 0 in", "# <-", "0.012 in", "hot")),
)
def lash_agrees_with_card(
    lash_hot: Length = None, lash_cold: Length = None, card_lash: Length = None, card_lash_state: Choice = None,
    lobe_ramp: Choice = None, side_name: Choice = None, intake_lash_hot: Length = None, head_material: Choice = None,
    intake_card_lash: Length = None, exhaust_card_lash: Length = None, intake_lash_cold: Length = None, exhaust_lash_hot: Length = None,
    exhaust_lash_cold: Length = None, *, band: Length = q("0.004 in"), least_hot: Length = q("0.004 in"), most_hot: Length = q("0.035 in"), tight_card: Length = q("0.012 in"),
):
    """Lash is part of the lobe: the ramp begins where the card says, and past its end the parts meet at full speed.

    A tuner may move it by 0.004 in; some go 0.008 closer. A tight-lash lobe has no ramp to spare: opened by more than
    0.004 in it hammers, which is an error. With heads of aluminum hot and cold are 0.006 in and more apart, so that a card's
    figure written under the other state is a warning. The other side's figure is a note; where both sides have it they have
    changed places. Lash that is gone when cold holds a valve open that still grows.
    """
    if lash_cold is not None and lash_cold <= 0:
        return at_least(lash_cold, least_hot).at("lash_cold").telling(
            limit_is="a valve that grows needs at least", cure="Open it: with no lash when cold the valve does not seat when it is hot.")
    if lash_hot is not None and not least_hot * (1 - 1e-9) <= lash_hot <= most_hot * (1 + 1e-9):
        return within(lash_hot, least_hot, most_hot).at("lash_hot").telling(
            limit_is="hot lash stays within", cure="Look for the unit or the decimal point; set it to the card.")
    cold = card_lash_state == "cold"
    lash, other = (lash_cold, lash_hot) if cold else (lash_hot, lash_cold)
    if lash is None and None not in (other, card_lash) and card_lash_state is not None and abs(other - card_lash) < 1e-6 \
            and (head_material or "").startswith("aluminum"):
        state, wrong = ("cold", "hot") if cold else ("hot", "cold")
        return require(False, "warning").at(f"lash_{wrong}").saying(
            f"The card gives {{card_lash}} {state}, and the same figure is written as the {wrong} lash.",
            f"Write it under lash_{state}; heads of aluminum move the lash by 0.006 in and more between cold and hot.")
    if lash is None or card_lash is None:
        return lacking("lash_cold" if cold else "lash_hot") if lash_hot is None and lash_cold is None else passes()
    off = lash - card_lash
    across = exhaust_card_lash if side_name == "intake" else intake_card_lash
    if across is not None and abs(across - card_lash) > SAME_SETTING and abs(lash - across) < SAME_SETTING:
        opposite = {("intake", True): exhaust_lash_cold, ("intake", False): exhaust_lash_hot,
                    ("exhaust", True): intake_lash_cold, ("exhaust", False): intake_lash_hot}.get((side_name, cold))
        swapped = opposite is not None and abs(opposite - card_lash) < SAME_SETTING
        return require(False, "warning" if swapped else "note").at("lash_cold" if cold else "lash_hot").saying(
            "The lash is written as {set_to}, which the card gives for the other side; here it says {card_lash}.",
            "Look whether intake and exhaust have changed places; if it is meant, write 0.001 in more or less and it is a tuner's figure.").telling(set_to=lash)
    verdict = at_most(Length(abs(off)), warning=band)
    if verdict.kind == "fail":
        tight = lobe_ramp == "tight_lash" or card_lash <= tight_card * (1 + 1e-9)
        verdict.level = "error" if tight and off > 0 else "warning"
        verdict.comparing(lash, card_lash)
        return verdict.at("lash_cold" if cold else "lash_hot").telling(
            limit_is="the card of this tight-lash lobe says" if tight else "the card says", by=Length(abs(off))).saying(
            fix="{} it by {{by}}, to the card; tune within {{band}} of it.".format("Close" if off > 0 else "Open"))
    if side_name == "exhaust" and lash_hot is not None and intake_lash_hot is not None and lash_hot < intake_lash_hot * (1 - 1e-9):
        return at_least(lash_hot, note=intake_lash_hot).telling(
            limit_is="the intake, which grows less, has", cure="Make sure that the two have not changed places.")
    return passes()


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The card's lash of {card_lash} does not say whether it is meant hot or cold.",
    fix="Write card_lash_state: hot or cold, as it stands on the card.",
    source="common practice, no source",
    when={"card_lash": given},
    points_at=("card_lash",),
    conforming="intake: {card_lash: 0.020 in, card_lash_state: hot}",
    nonconforming="""
        build: {stage: ordering}
        exhaust: {card_lash: 0.020 in}  # <-
        """,
)
def lash_states_hot_or_cold(card_lash: Length, card_lash_state: Choice = None):
    """Hot and cold lash of one lobe differ by as much as 0.012 in on an aluminum engine.

    A figure without its temperature is set wrong by somebody.
    """
    return wanting("card_lash_state").at("card_lash") if card_lash_state is None else passes()


COLD = """
block: {material: %s}
heads: {material: %s}
lifters: {kind: solid_roller}
intake:
  lash_hot: 0.020 in
  lash_cold: %s  %s
"""


@rule(
    scope="side",
    level="warning",
    due="assembly",
    says="Cold the lash is {value}; by the metals of block and head about {limit} would become {hot} hot.",
    fix="Set {limit} cold for the first start and {hot} after the first heat: the hot setting counts.",
    source="a chart of the trade; common practice, no source",
    when={"lifter_kind": SOLID, "lash_cold": given},
    points_at=("lash_cold",),
    conforming=(COLD % ("aluminum_cast", "aluminum_356_t6", "0.008 in", ""), COLD % ("cast_iron", "cast_iron", "0.022 in", ""),
                COLD % ("cast_iron", "aluminum_356_t6", "0.018 in", "")),
    nonconforming=(COLD % ("aluminum_cast", "aluminum_356_t6", "0.020 in", "# <-"), COLD % ("cast_iron", "aluminum_356_t6", "0.022 in", "# <-")),
)
def cold_lash_follows_from_hot(
    lash_cold: Length, lash_growth: Length, lash_hot: Length = None, card_lash: Length = None, card_lash_state: Choice = None,
    lash_growth_model: Length = None, *, note_beyond: Length = q("0.004 in"), warning_beyond: Length = q("0.010 in"),
):
    """Set cold to the hot figure, an aluminum engine runs with twice its lash; set too close, it burns valves.

    The chart (iron +0.002 in, iron with aluminum heads -0.006, all aluminum -0.012 from hot to cold) is for the first
    start. Other published ranges give other amounts, for iron even the other sign, so a small difference is a note.
    """
    hot = card_lash if card_lash_state == "hot" else None
    if lash_hot is not None and (hot is None or abs(lash_hot - hot) <= note_beyond * (1 + 1e-9)):
        hot = lash_hot  # tuned within the card's band; what lies farther off is the card rule's affair
    if hot is None and card_lash_state == "cold" and card_lash is not None:
        return not_applicable("the card gives the lash cold, and it is set cold")
    if hot is None:
        return lacking("lash_hot")
    meant = hot - lash_growth
    if meant <= 0:
        return require(False, "note").telling(hot=hot).saying(
            "The chart leaves no lash to set cold for {hot} hot on this engine.", "Set it hot, at the running temperature.")
    verdict = at_most(Length(abs(lash_cold - meant)), warning=warning_beyond, note=note_beyond)
    verdict.comparing(lash_cold, Length(meant))
    verdict.telling(hot=hot)
    if lash_growth_model is None:
        return verdict
    return verdict.telling(growth=lash_growth_model).saying(
        "Cold the lash is {value}; by the metals of block and head about {limit} would become {hot} hot. Reckoned from the lengths of the "
        "parts it changes by {growth} from cold to hot.")


@rule(
    scope="side",
    level="reminder",
    due="handover",
    says="Set the lash again after the first heat cycle, hot.",
    fix="Run it to temperature, set the lash in the order of firing, then sign for it with the figures.",
    source="common practice, no source",
    caution="Work on a hot running gear with the ignition off and gloves on.",
    when={"lifter_kind": SOLID},
    conforming="lifters: {kind: solid_flat}",
)
def lash_is_reset_hot(lifter_kind: Choice):
    """Springs, seats, studs and gaskets settle in the first heat; the cold figure was only to get it started.

    The same look takes in the load of two springs and a leak-down.
    """
    return review()
