"""The holes that hold the shells: their size, shape and line."""

from buildlint.rulebook import *

MAIN = """
bearings:
  main: {housing_bore: %s, housing_bore_low: 2.6406 in, housing_bore_high: 2.6415 in, housing_out_of_round: %s}  %s
"""
SAYS = "The housing is out of size or shape: {value}, and {limit} is the limit."
FIX = "Measure again with the final fasteners torqued; then cut cap or rod lightly and hone the housing."
SOURCE = "the drawing's own limits; shape common practice, no source"


@rule(
    scope="main_bearing",
    level="error",
    due="machining",
    says=SAYS,
    fix=FIX,
    source=SOURCE,
    points_at=("housing_bore",),
    conforming=(MAIN % ("2.6410 in", "0.0003 in", ""), MAIN % ("2.6415 in", "0.0005 in", "")),
    nonconforming=(MAIN % ("2.6417 in", "0.0003 in", "# <-"), MAIN % ("2.6404 in", "0.0003 in", "# <-"),
                   MAIN % ("2.6410 in", "0.0008 in", "# <-"), """
        bearings:
          main: {housing_bore: 2.6410 in, housing_bore_low: 2.6406 in, housing_bore_high: 2.6415 in, housing_taper: 0.0006 in}  # <-
        """),
)
def main_housing_bore_is_in_size(
    housing_bore: Length = None, housing_bore_low: Length = None, housing_bore_high: Length = None,
    housing_out_of_round: Length = None, housing_taper: Length = None, *,
    roundest: Length = q("0.0005 in"), straightest: Length = q("0.0004 in"),
):
    """The housing gives the shell its shape and its grip: too large and the shell spins, too small and it is crushed.

    Measured torqued with the fasteners that stay, at several angles and at both ends. The size limits are those of the
    drawing; mains usually have a thousandth, rods half of it.
    """
    return _judge(housing_bore, housing_bore_low, housing_bore_high, housing_out_of_round, housing_taper, roundest, straightest,
                  "main housing", "line-hone the caps true")


@rule(
    scope="rod_bearing",
    level="error",
    due="machining",
    says=SAYS,
    fix=FIX,
    source=SOURCE,
    points_at=("housing_bore",),
    conforming="""
        bearings:
          rod: {housing_bore: 2.2252 in, housing_bore_low: 2.2250 in, housing_bore_high: 2.2255 in, housing_out_of_round: 0.0002 in}
        """,
    nonconforming=("""
        bearings:
          rod: {housing_bore: 2.2258 in, housing_bore_low: 2.2250 in, housing_bore_high: 2.2255 in}  # <-
        """, """
        bearings:
          rod:
            housing_bore_low: 2.2250 in
            housing_bore_high: 2.2255 in
            housing_bore: [2.2252 in, 2.2251 in, 2.2248 in, 2.2253 in]  # <-
        """, """
        bearings:
          rod: {housing_bore: 2.2252 in, housing_bore_low: 2.2250 in, housing_bore_high: 2.2255 in, housing_out_of_round: 0.0007 in}  # <-
        """),
)
def rod_housing_bore_is_in_size(
    housing_bore: Length = None, housing_bore_low: Length = None, housing_bore_high: Length = None,
    housing_out_of_round: Length = None, housing_taper: Length = None, *,
    roundest: Length = q("0.0005 in"), straightest: Length = q("0.0004 in"),
):
    """A big end that was stretched by an over-rev is long in the direction of the beam; new bolts pull a cap elsewhere.

    Ten micrometers out of round or tapered is a service limit that has been seen printed; half a thousandth is where
    the size band of a rod ends as well.
    """
    return _judge(housing_bore, housing_bore_low, housing_bore_high, housing_out_of_round, housing_taper, roundest, straightest,
                  "big end", "cut cap and rod lightly and hone the big end")


def _judge(bore, low, high, out_of_round, taper, roundest, straightest, what, work):
    if bore is None and out_of_round is None and taper is None:
        return lacking("housing_bore")
    verdicts = []
    if bore is not None and low is not None and high is not None:
        size = within(Length(bore), error=(low, high))
        size.telling(
            trouble=f"The {what} measures {{value}}, outside its drawing ({{housing_bore_low}} to {{housing_bore_high}}).",
            remedy=f"Measure again with the final fasteners torqued; then {work} to the low limit, which holds the shell "
                   "best. Never file a cap or a shell." if bore > high else
                   "Hone it up to the low limit; a small housing takes the clearance and folds the shell.")
        verdicts.append(size)
    if out_of_round is not None:
        shape = at_most(Length(out_of_round), warning=roundest)
        verdicts.append(shape.telling(trouble=f"The {what} is {{value}} out of round; keep {{limit}}.",
                                      remedy=f"Torque it again and measure at the parting line too; then {work}."))
    if taper is not None:
        ends = at_most(Length(taper), warning=straightest)
        verdicts.append(ends.telling(trouble=f"The {what} is tapered by {{value}}; keep {{limit}}.",
                                     remedy=f"Measure both ends again; then {work}."))
    if not verdicts:
        return lacking("housing_bore_low", "housing_bore_high")
    worst = max(verdicts, key=lambda verdict: (verdict.kind == "fail") + (verdict.level == "error"))
    return worst.saying(worst.facts["trouble"], worst.facts["remedy"])


LINE = """
block: {line_misalignment_adjacent: %s, line_misalignment_overall: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="{which} the main bores are out of line by {value}; keep {limit}.",
    fix="Check with the final fasteners torqued, with a straight bar and feeler or a blued mandrel; line-hone, and look at the "
        "distance to the cam and the slack of its chain afterwards.",
    source="common practice, no source; stock of at most 0.001 in when a cap is replaced: US Army TM 5-3810-303-24",
    when={"block_line_misalignment_adjacent": given},
    points_at=("block_line_misalignment_adjacent",),
    conforming=(LINE % ("0.0003 in", "0.0006 in", ""), LINE % ("0.0005 in", "0.0010 in", "")),
    nonconforming=(LINE % ("0.0008 in", "0.0010 in", "# <-"), LINE % ("0.0012 in", "0.0010 in", "# <-"), """
        block:
          line_misalignment_adjacent: 0.0004 in
          line_misalignment_overall: 0.0025 in  # <-
        """),
)
def main_bores_are_aligned(
    block_line_misalignment_adjacent: Length, block_line_misalignment_overall: Length = None, *,
    adjacent_warning: Length = q("0.0005 in"), adjacent_error: Length = q("0.0010 in"),
    overall_warning: Length = q("0.0010 in"), overall_error: Length = q("0.0020 in"),
):
    """A bearing that stands off the line carries the bend of the crank: it wipes while its neighbors look new.

    Half a thousandth between neighbors and one over all is what a line hone delivers; twice that is scrapped bearings.
    """
    adjacent = at_most(block_line_misalignment_adjacent, warning=adjacent_warning, error=adjacent_error)
    adjacent.telling(which="Between neighbors").at("block_line_misalignment_adjacent")
    if block_line_misalignment_overall is None:
        return adjacent
    overall = at_most(block_line_misalignment_overall, warning=overall_warning, error=overall_error)
    overall.telling(which="Over all").at("block_line_misalignment_overall")
    return max((adjacent, overall), key=lambda verdict: ("note", "warning", "error").index(verdict.level) if verdict.level else -1)
