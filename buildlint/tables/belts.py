"""Accessories on the belt: alternator output by speed, and how fast belts, alternators and water pumps may run.

Output over rating follows the shape of curves by ISO 8854 (rating at 6000 rpm of the alternator, a low point at
1500), from memory; all of it is common practice and a maker's own figure wins.
"""

from ..quantities import q

# Alternator speed in thousands of revolutions a minute, and the share of its rated current that it gives, hot.
THOUSAND = q("1000 rpm")
OUTPUT = ((1.0, 0.0), (1.5, 0.32), (1.8, 0.43), (2.0, 0.50), (2.5, 0.62), (3.0, 0.72), (4.0, 0.86), (5.0, 0.94), (6.0, 1.0), (60.0, 1.0))

# Automotive belts at the limiter. Classical sections on plain drives stop at 33 to 35 m/s; narrow automotive ones
# see 50 for moments in any old V8.
BELT_SPEED = {"v_belt": q("50 m/s", "speed"), "multi_rib": q("60 m/s", "speed")}
