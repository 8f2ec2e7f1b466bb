"""From port to plenum: gasket and steps at the head, the length of the runner, the size of the plenum."""

from buildlint.rulebook import *

MATCH = """
intake:
  port: {width: 1.25 in, height: 2.05 in}
induction:
  manifold: {runner_width: %s, runner_height: 2.00 in, gasket_width: %s, gasket_height: 2.09 in, port_offset: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The gasket's window of {manifold_gasket_width} by {manifold_gasket_height} stands {value} into the {opening}.",
    fix="Take a gasket with a window of at least {width_to_clear:up} by {height_to_clear:up}, or trim it; it must clear both openings everywhere.",
    source="geometry; common practice, no source",
    when={"side_name": ("intake",), "manifold_gasket_width": given},
    points_at=("manifold_gasket_width", "manifold_gasket_height"),
    conforming=MATCH % ("1.20 in", "1.28 in", "0 in", ""),
    nonconforming=(MATCH % ("1.20 in", "1.22 in", "0 in", "# <-"), MATCH % ("1.20 in", "1.28 in", "0.06 in", "# <-")),
)
def intake_gasket_clears_the_ports(
    manifold_gasket_width: Length, manifold_gasket_height: Length = None, port_width: Length = None, port_height: Length = None,
    manifold_runner_width: Length = None, manifold_runner_height: Length = None, manifold_port_offset: Length = None,
):
    """A gasket lip in the port is a dam across the charge, and the first place where it tears.

    The gasket is taken as centered on the head's port; a manifold that stands off it by the offset asks that much more on
    one side.
    """
    offset = manifold_port_offset or 0.0
    short, opening = None, ""
    wanted = {"width": 0.0, "height": 0.0}
    for side, window, port, runner in (("width", manifold_gasket_width, port_width, manifold_runner_width),
                                       ("height", manifold_gasket_height, port_height, manifold_runner_height)):
        shift = 2 * offset if side == "width" else 0.0
        for name, size in (("port", port), ("runner", None if runner is None else runner + shift)):
            if size is not None and window is not None:
                wanted[side] = max(wanted[side], size)
                if short is None or (size - window) / 2 > short:
                    short, opening = (size - window) / 2, name
    if short is None:
        return not_applicable("the openings are not written")
    return at_most(Length(short), Length(0.0)).telling(
        opening=opening, width_to_clear=Length(max(wanted["width"], manifold_gasket_width)),
        height_to_clear=Length(max(wanted["height"], manifold_gasket_height or 0.0)))


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="Runner and port meet with a step of {value} into the flow; keep it below {limit}.",
    fix="Blend runner and port over an inch, or shift the manifold; match a port to a gasket only where the offset is known.",
    source="common practice, no source",
    when={"side_name": ("intake",), "manifold_runner_width": given},
    points_at=("manifold_runner_width", "manifold_runner_height"),
    conforming=(MATCH % ("1.20 in", "1.28 in", "0 in", ""), MATCH % ("1.24 in", "1.35 in", "0.02 in", "")),
    nonconforming=(MATCH % ("1.33 in", "1.35 in", "0 in", "# <-"), MATCH % ("1.20 in", "1.35 in", "0.08 in", "# <-"),
                   MATCH % ("0.98 in", "1.28 in", "0 in", "# <-")),
)
def intake_port_steps_are_small(
    manifold_runner_width: Length, manifold_runner_height: Length = None, port_width: Length = None, port_height: Length = None,
    manifold_port_offset: Length = None, *, step_in: Length = q("0.8 mm"), step_out_note: Length = q("2.5 mm"),
    area_note: Fraction = q("0.10", "fraction"), area_warning: Fraction = q("0.20", "fraction"),
):
    """A wall that stands into the flow throws fuel out of the air; a wider port behind it does little harm.

    Runner larger than port is the bad way round. With the sizes alone, roof and floor are taken as centered; the offset
    counts across the width.
    """
    if port_width is None:
        return not_applicable("the port is not written")
    offset = manifold_port_offset or 0.0
    pairs = [(manifold_runner_width, port_width, offset)]
    if manifold_runner_height is not None and port_height is not None:
        pairs.append((manifold_runner_height, port_height, 0.0))
    into = max((runner - port) / 2 + shift for runner, port, shift in pairs)
    out = max((port - runner) / 2 + shift for runner, port, shift in pairs)
    verdict = at_most(Length(into), warning=step_in)
    if verdict.kind == "pass" and len(pairs) == 2:
        change = abs(port_width * port_height / (manifold_runner_width * manifold_runner_height) - 1)
        verdict = at_most(Fraction(change), warning=area_warning, note=area_note).saying(
            "The area changes by {value} from runner to port; keep it below {limit}.")
    if verdict.kind == "pass":
        verdict = at_most(
            Length(out),
            note=step_out_note).saying("The port is wider than the runner by {value} on one side; {limit} is plenty.")
    return verdict


RUNNER = """
build: {duty: street_strip, induction: natural, peak_torque_speed: 4800 rpm, peak_power_speed: 6200 rpm}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
induction:
  manifold: {kind: %s, tuning_method: %s, runner_length: %s, runner_area: 2.2 in^2}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="By the method named the runners are tuned to {runner_tuned_speed}; torque peaks at {peak_torque_speed} and power at "
         "{peak_power_speed}.",
    fix="A runner {length_to_reach} long, valve seat to plenum, would be tuned between the peaks.",
    source="Engelman's resonator after Heywood, section 7.6 (from memory); constant product and time of flight common practice, no source",
    when={"manifold_runner_length": given, "manifold_tuning_method": given, "peak_torque_speed": given, "peak_power_speed": given, "induction": ("natural",)},
    points_at=("manifold_runner_length",),
    conforming=(RUNNER % ("dual_plane", "resonator", "13.5 in", ""), RUNNER % ("tunnel_ram", "constant_product", "15.0 in", "")),
    nonconforming=(RUNNER % ("single_plane", "resonator", "6.0 in", "# <-"),
                   RUNNER % ("dual_plane", "resonator", "28 in", "# <-")),
)
def runner_length_suits_power_range(
    runner_tuned_speed: Rpm, peak_torque_speed: Rpm, peak_power_speed: Rpm, manifold_runner_length: Length,
    manifold_tuning_method: Choice = None, *, below_torque: Fraction = q("0.75", "fraction"),
    above_power: Fraction = q("1.15", "fraction"),
):
    """The wave in the runner helps at one speed; outside the range the engine works in it is only in the way.

    The methods in use disagree by half and each is right for its own rules of thumb, so the spec says which one it was
    chosen by, and the window is wide. A manifold that was bought as it is names no method and is not judged.
    """
    low, high = below_torque * peak_torque_speed, above_power * peak_power_speed
    aim = (peak_torque_speed + peak_power_speed) / 2
    power = 2 if manifold_tuning_method == "resonator" else 1
    return within(Rpm(runner_tuned_speed), note=(low, high)).telling(
        length_to_reach=Length(manifold_runner_length * (runner_tuned_speed / aim) ** power))


PLENUM = """
build: {induction: %s}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
induction:
  manifold: {kind: %s, plenum_volume: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The plenum holds {value} of the displacement; {limit} is the {end} usual for this kind of manifold.",
    fix="A plenum of {volume_low:up} to {volume_high:down} suits this engine: a spacer adds, a filler takes away.",
    source="common practice, no source",
    when={"manifold_plenum_volume": given, "manifold_kind": ("single_plane", "injection_plenum", "tunnel_ram",
                                                             "blower_manifold")},
    points_at=("manifold_plenum_volume",),
    conforming=(PLENUM % ("natural", "single_plane", "3000 cc", ""),
                PLENUM % ("turbocharged", "injection_plenum", "7500 cc", "")),
    nonconforming=(PLENUM % ("natural", "single_plane", "1100 cc", "# <-"),
                   PLENUM % ("natural", "injection_plenum", "9000 cc", "# <-")),
)
def plenum_suits_displacement(
    manifold_plenum_volume: Volume, displacement: Volume, manifold_kind: Choice, induction: Choice = None, *,
    least={"single_plane": q("0.30", "ratio"), "injection_plenum": q("0.50", "ratio"), "tunnel_ram": q("0.40", "ratio"),
           "blower_manifold": q("0.30", "ratio"), "boosted": q("0.50", "ratio")},
    most={"single_plane": q("0.80", "ratio"), "injection_plenum": q("1.30", "ratio"), "tunnel_ram": q("1.30", "ratio"),
          "blower_manifold": q("1.60", "ratio"), "boosted": q("1.60", "ratio")},
):
    """Too small a plenum ties the cylinders to each other, too large a one dulls the pedal and leans out a carburetor's signal.

    Dual-plane and individual-runner manifolds have no plenum to speak of and are not asked.
    """
    row = "boosted" if induction not in (None, "natural") and manifold_kind == "injection_plenum" else manifold_kind
    share = manifold_plenum_volume / displacement
    return within(Ratio(share), note=(least[row], most[row])).telling(
        end="least" if share < least[row] else "most", volume_low=Volume(least[row] * displacement, "cc"),
        volume_high=Volume(most[row] * displacement, "cc"))


LAND = """
induction: {manifold: {gasket_land: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="Round the manifold's ports {value} of sealing land is left; keep {limit}.",
    fix="Take a gasket with a smaller window, weld the port up where it was cut too far, or leave the next port smaller.",
    source="3 mm: common practice, no source",
    when={"manifold_gasket_land": given},
    conforming=(LAND % ("0.2 in", ""), LAND % ("3 mm", "")),
    nonconforming=LAND % ("0.08 in", "# <-"),
)
def intake_gasket_keeps_land(manifold_gasket_land: Length, *, least: Length = q("3 mm")):
    """A port opened to the gasket's edge leaves a strip that is blown in by the first backfire, or sucks oil from the valley."""
    return at_least(manifold_gasket_land, least)
