"""A starter spec: the few lines every build begins with, and the ones that come next as comments.

The figures are examples in the order of size of the engine asked for; no claim is made that they suit it.
"""

# Firing orders by layout and cylinders, numbered as most engines of the kind are; common practice, no
# source. Of the others nothing is claimed: they get the plain order as a place to write in, and are told so.
FIRING_ORDERS = {
    ("inline", 1): (1,),
    ("inline", 4): (1, 3, 4, 2),
    ("inline", 6): (1, 5, 3, 6, 2, 4),
    ("v", 8): (1, 8, 4, 3, 6, 5, 7, 2),
}
BANK_ANGLES = {("v", 8): 90, ("v", 6): 90, ("v", 4): 90}


class NotKnown(Exception):
    """A choice that the vocabulary does not have; the message names those it has."""


def spec(cylinders=8, layout=None, duty="street", induction="natural"):
    """Return the text of a starter spec at the stage of planning. Raises NotKnown."""
    layout = layout or ("v" if cylinders >= 6 and cylinders % 2 == 0 else "inline")
    for word, value in (("layout", layout), ("duty", duty), ("induction", induction)):
        _known(word, value)
    if layout != "inline" and cylinders % 2:
        raise NotKnown(f"{cylinders} cylinders cannot stand in two like banks; write --layout inline")
    return _TEXT.format(
        cylinders=cylinders, layout=layout, duty=duty, induction=induction,
        bank_angle=_bank_angle(layout, cylinders), firing_order=_firing_order(layout, cylinders),
        torque=_about(47 * cylinders), power=_about(43 * cylinders), displacement=max(44 * cylinders, 60))


def _about(number):
    return round(number, -1) if number >= 150 else number


def _known(word, value):
    from .vocabulary import load

    choices = load().words["build", word].choices
    if value not in choices:
        from .spelling import nearest

        meant = nearest(value, choices)
        raise NotKnown(f"{value} is not {'an' if word[0] in 'aeiou' else 'a'} {word}.{f' Did you mean {meant}?' if meant else ''} "
                       f"There are {', '.join(choices)}")


def _bank_angle(layout, cylinders):
    if layout == "inline":
        return "# bank_angle: none, the cylinders stand in one row"
    angle = 180 if layout == "flat" else BANK_ANGLES.get((layout, cylinders))
    told = "# full angle between the banks"
    return f"bank_angle: {angle} deg                 {told}" if angle else f"# bank_angle: 60 deg                {told}"


def _firing_order(layout, cylinders):
    order = FIRING_ORDERS.get((layout, cylinders))
    told = "as YOUR engine fires; check it against the cam card" if order else "NOT an engine's: write the order on YOUR cam card here"
    return f"{f'firing_order: {list(order or range(1, cylinders + 1))}':<33}  # {told}"


_TEXT = """\
# A build spec. Lines without a # in front are examples: put in what is true of this engine before
# anything is ordered. Lines with a # come next: take the # away and write your own figure.
# Every length, force and torque carries its unit: 1.800 in, 45.72 mm, 130 lbf, 65 lbf-ft, 64 cc.
# What a word means:     buildlint explain rev_limit
# What is still missing: buildlint check on this file

build:
  name: new build                    # what the shop calls it
  # number: "00001"                  # job number; quotes keep the zeros
  stage: planning                    # planning, ordering, machining, mock_up, assembly, handover
  duty: {duty}
  induction: {induction}
  fuel: pump_gasoline
  transmission: manual               # or automatic, direct_drive
  idle_speed: 800 rpm                # warm, out of gear
  window_low: 1800 rpm               # from where it is meant to pull
  peak_torque: {torque} lbf-ft            # wanted, at the flywheel
  peak_torque_speed: 3800 rpm
  peak_power: {power} hp                 # wanted, at the flywheel
  peak_power_speed: 5300 rpm
  rev_limit: 5800 rpm                # where the limiter acts
  altitude_lowest: 300 ft            # lowest place it will run; knock is judged there

engine:
  layout: {layout}
  cylinders: {cylinders}
  {bank_angle}
  {firing_order}
  rotation: clockwise                # seen from the front
  stated_displacement: {displacement} in^3      # what it is meant to be; held against bore and stroke
  stated_compression_ratio: 9.5:1    # what it is meant to be; held against the parts

fuel_system:
  octane: 91                         # of the fuel it will get, on the scale of the next line
  octane_scale: aki                  # aki is what a US pump shows, (R+M)/2
  ethanol_fraction: 10 %             # as the pump says

# block:
#   material: cast_iron
#   class: production_two_bolt       # how strong a casting
#   bore: 4.030 in                   # finished, plate on; a list where the cylinders differ
#   deck_height: 9.020 in +/- 0.002 in
#
# crank:
#   stroke: 3.480 in
#   material: cast_iron
#
# rods:
#   length: 5.700 in
#   material: steel
#   class: production_forged
#
# pistons:
#   compression_height: 1.560 in
#   class: hypereutectic
#   wall_clearance: 0.0020 in
#   dish_volume: 5.0 cc
#
# heads:
#   material: cast_iron
#   chamber_volume: {{plan: 64 cc, measured: [64.2 cc, 63.9 cc], by: AB, on: 2026-05-12}}
#
# head_gasket:
#   bore: 4.100 in
#   compressed_thickness: 0.039 in
#
# camshaft:
#   core: cast_iron
#   lobe_separation: 112 deg
#   ground_advance: 4 deg
#
# lifters:
#   kind: hydraulic_flat
#
# rockers:
#   ratio: 1.5
#
# intake:
#   lobe: {{lift: 0.300 in, duration_at_050: 214 deg}}
#   valve: {{head_diameter: 1.940 in}}
#   spring: {{installed_height: 1.700 in, seat_load: 110 lbf, open_load: 270 lbf, solid_height: 1.100 in}}
#
# exhaust:
#   lobe: {{lift: 0.310 in, duration_at_050: 224 deg}}
#   valve: {{head_diameter: 1.500 in}}
#   spring: {{installed_height: 1.700 in, seat_load: 110 lbf, open_load: 270 lbf, solid_height: 1.100 in}}
#
# joints:
#   head: {{kind: bolt, thread: 7/16-14, torque: 65 lbf-ft, lubricant: engine_oil}}
#
# notes: free words, read by people only
"""
