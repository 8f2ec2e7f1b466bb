"""How finely a value was read: what differs from a limit by less than its last digit does not break it.

A builder writes 1.5 mm where the table says 0.060 in (1.524 mm), and files a gap to the nearest leaf of his gauge. A limit of
practice is not known more finely than that, so such a difference is no warning. An error stays one: where it counts, write
another digit.
"""

import re

from .model import BAND, FAIL, MAXIMUM, MINIMUM

MOST = 0.02  # of the limit: however coarsely a value is written, a larger difference is told; common practice, no source
STEPPED = ("temperature", "octane", "count")  # a scale with its own zero, and numbers that are names or are counted
_PLAIN = re.compile(r"[+-]?(\d+)(?:\.(\d*))?(?:[eE]([+-]?\d+))?(?![\d./]|-\d)")


def half_a_digit(value):
    """Half of the last digit a written value shows, in SI; 0 where it is a fraction, a range or not written so.

    ``value`` is a Value of the spec whose ``text`` is what stands there: "1.5 mm" gives 0.05 mm.
    """
    text = value.text.strip()
    number = _PLAIN.match(text)
    if number is None or ".." in text or not isinstance(value.data, (int, float)) or str(value.dimension) in STEPPED:
        return 0.0
    shown = float(number.group(0))
    if shown == 0:
        return 0.0
    step = 10.0 ** (int(number.group(3) or 0) - len(number.group(2) or ""))
    return abs(value.data / shown) * step / 2


def below_its_reading(verdict, level, values):
    """Whether a verdict of this level fails by less than the value it judges was read to: at most half of the last digit."""
    if verdict.kind != FAIL or verdict.near or level == "error" or verdict.bound not in (MAXIMUM, MINIMUM, BAND):
        return False
    value, limit = verdict.value, verdict.limit
    if not isinstance(value, (int, float)) or not isinstance(limit, (int, float)) or isinstance(value, bool):
        return False
    gap = abs(value - limit)
    if gap > MOST * abs(limit):
        return False
    return any(one is not None and one.written and isinstance(one.data, (int, float)) and one.data == value
               and gap <= half_a_digit(one) * (1 + 1e-9) for one in values)
