"""Elementary functions that take a float, a numpy array or a pint quantity alike.

Formulas use these so that one code path serves one build, a sweep over many, and the proof of dimensions.
numpy is imported only when something other than a float arrives.
"""

import math

NAN = math.nan
PI = math.pi


def _elementary(name, array_name=None):
    plain = getattr(math, name)
    array_name = array_name or name

    def function(x):
        if isinstance(x, (float, int)):
            try:
                return plain(x)
            except ValueError:
                return NAN
        import numpy

        return getattr(numpy, array_name)(x)

    function.__name__ = name
    function.__doc__ = f"{array_name} of a float, array or quantity; NaN outside its domain."
    return function


sqrt = _elementary("sqrt")
exp = _elementary("exp")
log = _elementary("log")
sin = _elementary("sin")
cos = _elementary("cos")
tan = _elementary("tan")
asin = _elementary("asin", "arcsin")
acos = _elementary("acos", "arccos")
atan = _elementary("atan", "arctan")


def _all_plain(values):
    return all(isinstance(value, (float, int)) for value in values)


def least(*values):
    """The smallest of several values, element by element; NaN if one is NaN."""
    if _all_plain(values):
        return NAN if any(value != value for value in values) else min(values)
    import functools

    import numpy

    return functools.reduce(numpy.minimum, values)


def greatest(*values):
    """The largest of several values, element by element; NaN if one is NaN."""
    if _all_plain(values):
        return NAN if any(value != value for value in values) else max(values)
    import functools

    import numpy

    return functools.reduce(numpy.maximum, values)


def where(condition, yes, no):
    """``yes`` where the condition holds, else ``no``, element by element."""
    if isinstance(condition, bool):
        return yes if condition else no
    import numpy

    return numpy.where(condition, yes, no)


def valid(condition, value):
    """``value`` where the condition holds, else NaN: a formula outside its validity has no answer."""
    if isinstance(condition, bool):
        return value if condition else NAN * value
    import numpy

    return numpy.where(condition, value, NAN * value)


def interpolate(x, points):
    """Straight lines between (x, y) points of a table; NaN outside it.

    ``points`` is a sequence of (float, float) in any order. Works on a float or an array of x.
    """
    points = sorted(points)
    if isinstance(x, (float, int)):
        from bisect import bisect_right

        slack = 1e-12 * max(abs(points[0][0]), abs(points[-1][0]))
        if not points[0][0] - slack <= x <= points[-1][0] + slack:
            return NAN
        at = min(max(bisect_right(points, (x, math.inf)), 1), len(points) - 1)
        (x1, y1), (x2, y2) = points[at - 1], points[at]
        return y1 + (y2 - y1) * (x - x1) / (x2 - x1) if x2 > x1 else y1
    import numpy

    xs, ys = zip(*points)
    return numpy.interp(x, xs, ys, left=NAN, right=NAN)
