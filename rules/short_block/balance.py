"""Weights and balance: the set, the bobweight, what is left, and that all parts belong to one scheme."""

from buildlint.rulebook import *

RACING = ("road_race", "oval_race", "drag_race")

WEIGHTS = """
build: {duty: %s}
pistons: {mass: %s}  %s
"""
# item: spread for street and racing. Common practice, no source; the grams are seen in trade pages.
SPREADS = {"pistons": {"street": q("2 g"), "race": q("1 g")}, "small_ends": {"street": q("2 g"), "race": q("1 g")},
           "big_ends": {"street": q("2 g"), "race": q("1 g")}}


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The {item} differ by {value}; within {limit} is usual here.",
    fix="Grind the heavy ones on their pads down to the lightest; weigh again, then balance.",
    source="common practice, no source",
    when={"weights_spread_worst": given},
    points_at=("piston_mass", "rod_big_end_mass", "rod_small_end_mass"),
    conforming=(WEIGHTS % ("street", "[418 g, 419 g, 420 g, 419 g, 418 g, 420 g, 419 g, 420 g]", ""),
                WEIGHTS % ("stock", "[418 g, 423 g, 420 g, 419 g, 418 g, 420 g]", "")),
    nonconforming=(WEIGHTS % ("drag_race", "[418 g, 420 g, 424 g, 420 g, 420 g, 420 g, 420 g, 420 g]", "# <-"),
                   WEIGHTS % ("street", "[418 g, 420 g, 421 g, 420 g]", "# <-"), WEIGHTS % ("street", "[418 g, 428 g, 420 g, 420 g]", "# <-")),
)
def piston_set_weights_match(
    weights_spread_worst: Mass, piston_mass_spread: Mass = None, rod_small_end_mass_spread: Mass = None,
    rod_big_end_mass_spread: Mass = None, duty: Choice = None, *,
    rows=SPREADS, stock: Mass = q("6 g"), wrong_part: Mass = q("8 g"),
):
    """The crank is balanced for one bobweight; a piston that weighs more than its brothers shakes the engine alone.

    Beyond the usual spread is noted, beyond twice of it a warning; eight grams in a matched set mean a part of another
    set. Production engines are left at six grams.
    """
    verdicts = []
    for item, word, spread in (("pistons", "piston_mass", piston_mass_spread), ("small_ends", "rod_small_end_mass", rod_small_end_mass_spread),
                               ("big_ends", "rod_big_end_mass", rod_big_end_mass_spread)):
        if spread is None:
            continue
        usual = stock if duty == "stock" else rows[item]["race" if duty in RACING else "street"]
        verdict = at_most(Mass(spread), note=usual, warning=Mass(2 * usual), error=Mass(max(wrong_part, 2 * usual)))
        if verdict.kind == "fail":
            verdict.limit = usual
        verdicts.append(verdict.telling(item=item.replace("_", " ")).at(word))
    return max(verdicts, key=lambda verdict: {None: 0, "note": 1, "warning": 2, "error": 3}[verdict.level])


CARD = """
engine: {layout: v, cylinders: 8, bank_angle: 90 deg}
crank: {rods_per_pin: 2}
pistons:
  mass: 420 g
  pin: {mass: 118 g, locks_mass: 4 g}
rings: {top: {mass: 12 g}, second: {mass: 12 g}, oil: {mass: 14 g}}
rods: {small_end_mass: 178 g, big_end_mass: 412 g}
balance: {shells_mass: 42 g, oil_allowance: 4 g, card_bobweight: %s%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The card's bobweight is {value}; the parts as written give {limit}.",
    fix="Weigh the parts again, make a new card, and have the crank balanced to it.",
    source="definition; half of the reciprocating mass for a 90-degree V8 seen three times and proven; limits common practice, no source",
    when={"balance_card_bobweight": given},
    compares=("balance_fraction",),
    points_at=("balance_card_bobweight",),
    conforming=(CARD % ("1670 g", "", ""), CARD % ("1680 g", ", fraction: 0.51", "")),
    nonconforming=(CARD % ("1700 g", "", "# <-"), CARD % ("1600 g", "", "# <-"), CARD % ("1700 g", ", fraction: 0.54", "# <-")),
)
def bobweight_matches_the_parts(
    balance_card_bobweight: Mass, balance_bobweight_smallest: Mass, balance_bobweight_largest: Mass, balance_fraction_written: Fraction = None,
    balance_fraction_computed: Fraction = None, *,
    warning_share: Fraction = q("0.01", "fraction"), warning_beyond: Mass = q("15 g"), error_share: Fraction = q("0.03", "fraction"),
    overbalance: Fraction = q("0.02", "fraction"),
):
    """Ten grams too much on every pin is a force of fifty pounds at 7000 rpm, from balancing that was paid for.

    For each rod the big end and its shells, and of what reciprocates the fraction of the layout: half in a 90-degree V8,
    where two pistons at right angles pull like one mass that turns. Fast engines are overbalanced by a percent or two on
    purpose. A V6 has its share by bank angle and splay of its pins, a straight four or six none; for any other the
    crank's maker gives the fraction.
    """
    written, computed = balance_fraction_written, balance_fraction_computed
    if written is not None and computed is not None and abs(written - computed) > overbalance * (1 + 1e-9):
        verdict = at_most(Fraction(abs(written - computed)), warning=overbalance)
        verdict.comparing(Fraction(written), Fraction(computed))
        return verdict.saying("The card balances {value} of the reciprocating mass; this layout wants {limit}.",
                              "Look at the card again, or say why under notes; a percent or two of overbalance is common.").at("balance_card_bobweight")
    bobweight = (balance_bobweight_smallest + balance_bobweight_largest) / 2
    apart = abs(balance_card_bobweight - bobweight)
    verdict = at_most(Mass(apart), warning=Mass(max(warning_share * bobweight, warning_beyond)), error=Mass(error_share * bobweight))
    verdict.comparing(Mass(balance_card_bobweight), Mass(bobweight))
    return verdict


SHARE = """
engine: {layout: v, cylinders: 6, bank_angle: 90 deg}
crank: {pin_splay: %s}
balance: {fraction: %s%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="The bobweight takes {value} of the reciprocating mass; a V6 with this bank angle and pin wants {low} to {high}.",
    fix="Ask the crank's maker which fraction it was drawn for, and have the card made with that; {low} keeps the rocking in one plane, {high} "
        "leaves it turning.",
    source="kinematics of two rotating halves; the trade's 0.366 for pins splayed by 30 degrees, from memory",
    when={"balance_fraction_written": given, "balance_fraction_one_plane": given},
    points_at=("balance_fraction_written",),
    conforming=(SHARE % ("30 deg", "0.366", "", ""), SHARE % ("30 deg", "0.46", "", ""), SHARE % ("30 deg", "0.50", "", ""),
                SHARE % ("0 deg", "0.50", "", ""), SHARE % ("30 deg", "0.50", ", shaft: fitted", "")),
    nonconforming=(SHARE % ("30 deg", "0.30", "", "# <-"), SHARE % ("30 deg", "0.55", "", "# <-"), SHARE % ("18 deg", "0.366", "", "# <-"),
                   SHARE % ("0 deg", "0.366", "", "# <-"), SHARE % ("30 deg", "0.366", ", shaft: fitted", "# <-")),
)
def bobweight_share_suits_the_layout(
    balance_fraction_written: Fraction, balance_fraction_one_plane: Fraction, balance_fraction_computed: Fraction = None,
    balance_card_bobweight: Mass = None, *, overbalance: Fraction = q("0.02", "fraction"),
):
    """A V6 balanced like a V8 or like its neighbor's V6 shakes all the same: bank angle and split of the pins decide the share.

    Its counterweights can take half of each reciprocating mass and no more; a 90-degree V6 on split pins is left with a
    rocking that turns backward. Makers choose between 0.366, where it rocks in one plane only, and one half; 0.46 has been
    seen. A percent or two over is common. Where the layout leaves nothing, or a balance shaft takes it, one half is right.
    """
    low, high = balance_fraction_one_plane, Fraction(0.5)
    if balance_fraction_computed is not None:
        if balance_card_bobweight is not None:
            return not_applicable("one fraction is right, and the whole card is held against it")
        low = high = balance_fraction_computed
    verdict = within(balance_fraction_written, low - overbalance, high + overbalance).telling(low=Fraction(low), high=Fraction(high))
    return verdict if low < high else verdict.saying(
        "The bobweight takes {value} of the reciprocating mass; this V6 can be balanced whole, with {high}.",
        "Have the card made with {high}, or ask the crank's maker why not.")


CURRENT = """
pistons:
  mass: 420 g
  pin: {mass: %s}
balance: {card_piston_mass: 420 g, card_pin_mass: 118 g, balanced_on: 2026-04-10}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The card was made with {item} of {limit}; those to be fitted weigh {value}.",
    fix="Weigh everything again and balance to a new card; {effect}.",
    source="definition; two grams common practice, no source",
    when={"balance_card_deviation": given},
    points_at=("balance_balanced_on", "balance_card_piston_mass", "balance_card_pin_mass"),
    conforming=(CURRENT % ("118 g", ""), CURRENT % ("119.5 g", "")),
    nonconforming=(CURRENT % ("126 g", "# <-"), CURRENT % ("140 g", "# <-")),
)
def balance_card_is_current(
    balance_card_deviation: Mass, balance_card_piston_mass: Mass = None, piston_mass_smallest: Mass = None, balance_card_pin_mass: Mass = None,
    piston_pin_mass: Mass = None, balance_card_rings_mass: Mass = None, rings_mass: Mass = None, balance_card_small_end_mass: Mass = None,
    rod_small_end_mass_smallest: Mass = None, balance_card_big_end_mass: Mass = None, rod_big_end_mass_smallest: Mass = None,
    balance_card_shells_mass: Mass = None, balance_shells_mass: Mass = None, balance_card_locks_mass: Mass = None,
    piston_pin_locks_mass: Mass = None, balance_balanced_on: Date = None, *,
    warning_beyond: Mass = q("2 g"), error_beyond: Mass = q("10 g"),
):
    """Thicker pins, other rings, coated pistons, stronger bolts: whatever changes after balancing makes the card a lie.

    Two grams are scales and cleaning; ten are another part.
    """
    items = (("pistons", balance_card_piston_mass, piston_mass_smallest), ("pins", balance_card_pin_mass, piston_pin_mass),
             ("rings", balance_card_rings_mass, rings_mass), ("small ends", balance_card_small_end_mass, rod_small_end_mass_smallest),
             ("big ends", balance_card_big_end_mass, rod_big_end_mass_smallest), ("shells", balance_card_shells_mass, balance_shells_mass),
             ("locks", balance_card_locks_mass, piston_pin_locks_mass))
    known = [(item, card, now) for item, card, now in items if card is not None and now is not None]
    item, card, now = max(known, key=lambda row: abs(row[1] - row[2]))
    verdict = at_most(Mass(abs(now - card)), warning=warning_beyond, error=error_beyond)
    verdict.comparing(Mass(now), Mass(card))
    twice = item in ("big ends", "shells")
    return verdict.telling(item=item, effect="what turns counts whole for every rod" if twice else "of what goes up and down half counts for every rod of a V8")


RESIDUAL = """
build: {duty: %s, rev_limit: 7000 rpm}
crank: {mass: 25 kg}
balance: {residual_per_plane: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="{value} is left in each plane, which at the rev limit is a grade of G{grade}; {limit} is the line for {duty} duty.",
    fix="Balance again to {goal} or less in each plane; heavy metal goes in where drilling cannot take enough.",
    source="ISO 21940-11 (G = e w; crankshaft drives G16 rigidly, G40 elastically mounted); lines between them common practice, no source",
    when={"balance_residual_per_plane": given},
    points_at=("balance_residual_per_plane",),
    conforming=(RESIDUAL % ("street", "0.5 ozf*in", ""), RESIDUAL % ("drag_race", "0.25 ozf*in", "")),
    nonconforming=(RESIDUAL % ("street", "0.6 ozf*in", "# <-"), RESIDUAL % ("drag_race", "0.5 ozf*in", "# <-"), RESIDUAL % ("street", "1.2 ozf*in", "# <-"),
                   RESIDUAL % ("drag_race", "0.7 ozf*in", "# <-")),
)
def residual_unbalance_is_small(
    balance_residual_per_plane: Unbalance, balance_grade: Speed, duty: Choice = None, *,
    street_warning: Speed = q("0.022 m/s"), street_error: Speed = q("0.040 m/s"), race_warning: Speed = q("0.016 m/s"),
    race_error: Speed = q("0.025 m/s"),
):
    """What is left after balancing shakes with the square of the speed and ends in the bearings.

    Shops aim at half an ounce-inch in each plane for the street and a quarter for racing, which for a usual crank at 7000
    rpm lies on both sides of the standard's G16.
    """
    racing = duty in RACING
    per_grade = balance_residual_per_plane / balance_grade if balance_grade > 0 else 0.0
    warning, error = (race_warning, race_error) if racing else (street_warning, street_error)
    verdict = at_most(Unbalance(balance_residual_per_plane), warning=Unbalance(warning * per_grade), error=Unbalance(error * per_grade))
    return verdict.telling(grade=f"{balance_grade * 1000:.1f}")


SCHEME = """
balance: {scheme: %s}
damper: {unbalance: %s}
flywheel: {unbalance: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The crank is balanced {balance_scheme}: {trouble}.",
    fix="Fit damper and flywheel that belong to the crank, or have the crank balanced with the ones to be used.",
    source="common practice, no source; force m r w^2",
    points_at=("flywheel_unbalance", "damper_unbalance", "balance_scheme"),
    conforming=(SCHEME % ("internal", "0 ozf*in", "0 ozf*in", ""), SCHEME % ("external", "28 ozf*in", "28 ozf*in", ""),
                SCHEME % ("rear_only", "0 ozf*in", "28 ozf*in", "")),
    nonconforming=(SCHEME % ("internal", "0 ozf*in", "28 ozf*in", "# <-"), SCHEME % ("external", "28 ozf*in", "0 ozf*in", "# <-"),
                   SCHEME % ("rear_only", "0 ozf*in", "0 ozf*in", "# <-"), """
        balance: {scheme: internal}
        damper: {unbalance: 28 ozf*in}  # <-
        flywheel: {unbalance: 0 ozf*in}
        """, """
        balance: {scheme: external, card_damper_unbalance: 28 ozf*in, card_flywheel_unbalance: 28 ozf*in}
        damper: {unbalance: 50 ozf*in}  # <-
        flywheel: {unbalance: 28 ozf*in}
        """),
)
def balance_scheme_is_consistent(
    balance_scheme: Choice, damper_unbalance: Unbalance, flywheel_unbalance: Unbalance, balance_card_damper_unbalance: Unbalance = None,
    balance_card_flywheel_unbalance: Unbalance = None, rev_limit: Rpm = None, *, none_within: Unbalance = q("0.5 ozf*in"),
    same_within: Unbalance = q("2 ozf*in"),
):
    """A weighted flywheel on a crank that needs none pounds the rear main with most of a ton at 6000 rpm.

    Damper and flywheel are part of an externally balanced crank and of no other; engines with a one-piece rear seal often
    carry weight at the flywheel alone. The parts on the balance card are the ones to be used.
    """
    parts = (("damper", damper_unbalance, balance_card_damper_unbalance, balance_scheme == "external"),
             ("flywheel", flywheel_unbalance, balance_card_flywheel_unbalance, balance_scheme in ("external", "rear_only")))
    for name, has, card, weighted in parts:
        trouble = None
        if not weighted and has > none_within:
            trouble, wrong = f"the {name} carries weight that this crank does not want", has
        elif weighted and has <= none_within:
            trouble, wrong = f"the {name} carries no weight, and this crank needs it", card or 0.0
        elif card is not None and abs(has - card) > same_within:
            trouble, wrong = f"the {name} is not the one of the balance card", abs(has - card)
        if trouble:
            verdict = require(False).telling(trouble=trouble).at(f"{name}_unbalance")
            verdict.value = Unbalance(has)
            force = Force(wrong * rev_limit**2) if rev_limit is not None and wrong else None
            pounding = "; at the rev limit it pounds with {force}" if force is not None else ""
            return verdict.telling(force=force).saying(
                f"The crank is balanced {{balance_scheme}}: {{trouble}} ({{value}} written){pounding}.",
                f"Fit the {name} that belongs to the crank, or have the crank balanced with the one to be used.")
    return passes()


SPUN = """
balance: {scheme: %s, done_with: %s}  %s
"""
# What each scheme has bolted on while the crank is spun, and what shops call it.
WEIGHTS = {"external": ("damper", "flywheel"), "rear_only": ("flywheel",)}
HOW = {"external": "externally", "rear_only": "with weight at its rear"}
CALLED = {"damper": ("damper", "balancer"), "flywheel": ("flywheel", "flexplate", "flex plate")}


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The crank is balanced {how}, and its {what} was not on when it was spun.",
    fix="Have it spun again with the {what} that will be used, marked to the crank.",
    source="common practice, no source",
    when={"balance_done_with": given},
    points_at=("balance_done_with",),
    conforming=(SPUN % ("external", "[damper, flexplate]", ""), SPUN % ("rear_only", "[flywheel, clutch cover]", ""), SPUN % ("internal", "[pilot bearing]", "")),
    nonconforming=(SPUN % ("external", "[flywheel]", "# <-"), SPUN % ("external", "[damper]", "# <-"), SPUN % ("rear_only", "[damper]", "# <-")),
)
def weighted_parts_are_on_when_balanced(balance_done_with: List, balance_scheme: Choice):
    """Damper and flywheel of an externally balanced crank carry part of its counterweight: without them there is nothing to balance.

    An internally balanced crank is spun bare, or with parts that are balanced by themselves.
    """
    on = " ".join(balance_done_with).lower().replace("_", " ")
    missing = [part for part in WEIGHTS.get(balance_scheme, ()) if not any(name in on for name in CALLED[part])]
    return require(not missing).telling(what=" and ".join(missing) or "nothing", how=HOW.get(balance_scheme, "by itself"))


HEAVY = """
crank: {target_bobweight: 1750 g}
balance: {card_bobweight: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The bobweight is {value}; the crank's counterweights suit {crank_target_bobweight}.",
    fix="Plan for heavy metal, pressed in parallel to the crank's axis, or order lighter pistons and pins.",
    source="common practice, no source",
    when={"crank_target_bobweight": given, "balance_bobweight_planned": given},
    points_at=("balance_card_bobweight", "crank_target_bobweight"),
    conforming=HEAVY % ("1770 g", ""),
    nonconforming=HEAVY % ("1850 g", "# <-"),
)
def heavy_metal_is_foreseen(
    balance_bobweight_planned: Mass, crank_target_bobweight: Mass, *, beyond: Fraction = q("0.03", "fraction"),
):
    """Parts heavier than the crank was made for need slugs of heavy metal in its counterweights, which cost more than the parts saved."""
    verdict = within(Mass(balance_bobweight_planned), Mass(crank_target_bobweight * (1 - beyond)), Mass(crank_target_bobweight * (1 + beyond)))
    return verdict.saying(fix=None if verdict.facts.get("side") == "above" else "Plan for much drilling, or order a crank of a lower range.")
