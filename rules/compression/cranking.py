"""What compression gauge and leak-down tester say of the finished engine."""

from buildlint.rulebook import *

GAUGE = """
build: {altitude_lowest: 400 ft, altitude_highest: 2500 ft}
engine: {cranking_pressure: %s}  %s
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
intake:
  lobe: {centerline: 106 deg, advertised_duration: 276 deg, advertised_check_height: 0.006 in}
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The compression gauge reads {lowest_reading} to {highest_reading}; ratio, cam and altitude let expect {expected_low} to "
         "{expected_high}, about {usual}.",
    fix="{look} Write the expected range on the hand-over sheet, for the place the engine goes to.",
    source="polytropic compression; exponents 1.10 to 1.30 common practice, no source; ISO 2533 standard atmosphere",
    caution="The engine is turned over with plugs out: no fuel, no spark, nobody near belts and fan; follow the gauge maker's instructions.",
    when={"cranking_pressure": given},
    points_at=("cranking_pressure_smallest",),
    conforming=(GAUGE % ("170 psi", ""), GAUGE % ("[165 psi, 172 psi, 168 psi]", "")),
    nonconforming=(GAUGE % ("105 psi", "# <-"), GAUGE % ("[240 psi, 238 psi, 241 psi]", "# <-")),
)
def cranking_pressure_fits_the_build(
    cranking_pressure_smallest: Pressure, cranking_pressure_largest: Pressure, cranking_pressure_expected: Pressure,
    cranking_pressure_expected_low: Pressure, cranking_pressure_expected_high: Pressure,
):
    """A cam a tooth off, the wrong gasket or the wrong piston shows on the gauge before it shows anywhere else.

    Gauges, oil and cranking speed scatter, so the band is wide; one low cylinder among good ones is another rule.
    """
    readings = {
        "lowest_reading": Pressure(cranking_pressure_smallest), "highest_reading": Pressure(cranking_pressure_largest),
        "expected_low": Pressure(cranking_pressure_expected_low), "expected_high": Pressure(cranking_pressure_expected_high),
        "usual": Pressure(cranking_pressure_expected)
    }
    if cranking_pressure_largest < cranking_pressure_expected_low:
        verdict = at_least(Pressure(cranking_pressure_largest), cranking_pressure_expected_low)
        look = "All are low: degree the cam (late?), then gasket, chamber and throttle held open; then wet the rings and test again."
    else:
        verdict = at_most(Pressure(cranking_pressure_smallest), cranking_pressure_expected_high)
        look = "All are high: degree the cam (early?), then look at gasket thickness, chamber and piston; oil in the cylinders lifts it too."
    return verdict.telling(look=look, **readings)


EVEN = """
engine: {cranking_pressure: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="handover",
    says="The cylinders read {lowest_reading} to {highest_reading}, {share} apart.",
    fix="Put a spoon of oil in the low cylinder and read again: up means rings, unchanged means valves or gasket; then a leak-down test.",
    source="common practice, no source",
    points_at=("cranking_pressure_smallest",),
    conforming=(EVEN % ("[170 psi, 165 psi, 172 psi, 168 psi]", ""), EVEN % ("170 psi", "")),
    nonconforming=(EVEN % ("[170 psi, 150 psi, 172 psi, 168 psi]", "# <-"),
                   EVEN % ("[170 psi, 120 psi, 172 psi, 168 psi]", "# <-")),
)
def cranking_pressure_is_even(
    cranking_pressure_smallest: Pressure = None, cranking_pressure_largest: Pressure = None, *,
    warning_beyond: Fraction = q("0.10", "fraction"), error_beyond: Fraction = q("0.20", "fraction"),
):
    """One cylinder that does not hold its charge is a valve, a ring or a gasket, and it will not heal by running."""
    if cranking_pressure_smallest is None or cranking_pressure_smallest == cranking_pressure_largest:
        return not_applicable("nothing is measured cylinder by cylinder")
    share = 1 - cranking_pressure_smallest / cranking_pressure_largest
    verdict = at_most(Fraction(share), error=error_beyond, warning=warning_beyond)
    return verdict.telling(share=f"{share:.0%}", lowest_reading=Pressure(cranking_pressure_smallest),
                           highest_reading=Pressure(cranking_pressure_largest))


LEAK = """
engine: {leak_down: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="handover",
    says="The worst cylinder loses {leak_down_largest} in the leak-down test, the best {leak_down_smallest}; {wanted}.",
    fix="Listen where it hisses: carburetor or throttle is the intake valve, tail pipe the exhaust valve, breather the rings, radiator "
        "or the next plug hole the gasket. Below {warning_above} a second test after the first heat may still improve.",
    source="common practice, no source",
    caution="Air in the cylinder turns the engine: hold the crank, keep hands and tools out of it, and let the pressure off first.",
    points_at=("leak_down_largest",),
    conforming=(LEAK % ("[3 %, 4 %, 4 %, 3 %]", ""), LEAK % ("4 %", "")),
    nonconforming=(LEAK % ("[3 %, 4 %, 12 %, 3 %]", "# <-"), LEAK % ("14 %", "# <-"), LEAK % ("[2 %, 9 %, 3 %, 3 %]", "# <-"),
                   LEAK % ("[5 %, 7 %, 6 %, 6 %]", "# <-")),
)
def cylinder_leakage_is_low(
    leak_down_largest: Fraction, leak_down_smallest: Fraction, *, note_above: Fraction = q("0.05", "fraction"),
    warning_above: Fraction = q("0.10", "fraction"), spread_above: Fraction = q("0.05", "fraction"),
):
    """Air that leaks cold is pressure that leaks hot; on a fresh engine more than a tenth means a valve or a ring is wrong.

    Above five percent is only noted, since new rings have not bedded in; cylinders that differ by more than five
    points are asked about whatever their level.
    """
    spread = leak_down_largest - leak_down_smallest
    verdict = at_most(Fraction(leak_down_largest), warning=warning_above, note=note_above)
    wanted = f"keep it below {warning_above if verdict.level == 'warning' else note_above:.0%}"
    if verdict.level != "warning" and spread > spread_above * (1 + 1e-9):
        verdict = at_most(Fraction(spread), warning=spread_above)
        wanted = f"they should lie within {spread_above * 100:.0f} points of each other"
    return verdict.telling(wanted=wanted)
