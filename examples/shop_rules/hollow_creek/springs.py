"""What this shop has learned about valve springs on its own dynamometer."""

from buildlint.rulebook import *

SPRING = """
build: {rev_limit: %s}
intake:
  spring: {seat_load: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{spring_seat_load} on the seat is light for {rev_limit}; this shop's springs have {limit} or more there.",
    fix="Shim the spring, or choose one that gives {limit} at its installed height.",
    source="the shop's own dynamometer records",
    points_at=("spring_seat_load",),
    conforming=(SPRING % ("6800 rpm", "145 lbf", ""), SPRING % ("6000 rpm", "118 lbf", "")),
    nonconforming=SPRING % ("7000 rpm", "130 lbf", "# <-"),
)
def hollow_creek_seat_load_follows_speed(
    spring_seat_load: Force, rev_limit: Rpm, *,
    at_six_thousand: Force = q("115 lbf"), for_each_thousand_more: Force = q("25 lbf"),
):
    """Bounce at the seat costs power before it breaks anything; it began at these loads in our own tests.

    A straight line through what we measured; below 6000 rpm nothing is asked.
    """
    thousands = max(rev_limit / q("1000 rpm") - 6.0, 0.0)
    return at_least(spring_seat_load, Force(at_six_thousand + thousands * for_each_thousand_more))


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The catalogue spring {spring_part} was taken off the shop's list.",
    fix="Choose one of the current parts; the list hangs over the spring tester.",
    source="the shop's list of parts",
    when={"spring_part": given},
    points_at=("spring_part",),
    conforming="""
        intake:
          spring: {part: hc-spring-312}
        """,
    nonconforming="""
        intake:
          spring: {part: hc-spring-208}  # <-
        """,
)
def hollow_creek_spring_is_on_the_list(spring_part: PartNumber, *, withdrawn=("hc-spring-208", "hc-spring-209")):
    """Two lots came back with broken inner coils; what is left of them on the shelf must not be built in."""
    return require(str(spring_part) not in withdrawn)
