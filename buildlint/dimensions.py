"""The kinds of value a word can have, to be used as annotations of rules and formulas.

A quantity's dimension is named as in the schema. Calling one makes an amount that a finding can show in
the builder's unit: ``Length(0.00127)``.
"""

from .quantities import Amount


class Dimension(str):
    """The name of a kind of value; ``numeric`` says whether it is a quantity that can be computed with."""

    numeric = True

    def __call__(self, value, unit=""):
        """Make an amount of this dimension from a value in SI, shown in ``unit`` or the builder's own."""
        return Amount(value, str(self), unit)


class Plain(Dimension):
    """A kind of value that is not a quantity: a choice, a text, a date, a list."""

    numeric = False


Length = Dimension("length")
Area = Dimension("area")
Volume = Dimension("volume")
Angle = Dimension("angle")
Mass = Dimension("mass")
Force = Dimension("force")
Stiffness = Dimension("stiffness")
Pressure = Dimension("pressure")
Torque = Dimension("torque")
Rpm = Dimension("rpm")
RpmPerTime = Dimension("rpm_per_time")
Power = Dimension("power")
Time = Dimension("time")
Temperature = Dimension("temperature")
TemperatureRise = Dimension("temperature_rise")
Flow = Dimension("flow")
MassFlow = Dimension("mass_flow")
Density = Dimension("density")
Viscosity = Dimension("viscosity")
KinematicViscosity = Dimension("kinematic_viscosity")
SpecificEnergy = Dimension("specific_energy")
FuelPerWork = Dimension("fuel_per_work")
Unbalance = Dimension("unbalance")
Inertia = Dimension("inertia")
TorsionalStiffness = Dimension("torsional_stiffness")
AnglePerPressure = Dimension("angle_per_pressure")
Frequency = Dimension("frequency")
Voltage = Dimension("voltage")
Current = Dimension("current")
Hardness = Dimension("hardness")
Octane = Dimension("octane")
Ratio = Dimension("ratio")
Fraction = Dimension("fraction")
Count = Dimension("count")
Speed = Dimension("speed")
Energy = Dimension("energy")
Acceleration = Dimension("acceleration")

Choice = Plain("choice")
Text = Plain("text")
Date = Plain("date")
PartNumber = Plain("part_number")
YesNo = Plain("yes_no")
Thread = Plain("thread")
List = Plain("list")
Table = Plain("table")
Entries = Plain("entries")

LengthOrTime = Dimension("length_or_time")

KINDS = {kind: kind for kind in list(vars().values()) if isinstance(kind, Dimension)}
