"""Values as they are said to the builder: as he wrote them, or worked out and shown in his unit.

Quantities by themselves are shown by ``quantity_display``; here a Value of a spec is, with what is known of its unit.
"""

from .quantity_display import default_unit, show

NO_UNIT = " "  # looked for, and there is none


def unit_of(value):
    """The unit a value was written in, or that of the first written value of its dimension it rests on."""
    if not value.unit and value.formula is not None:
        value.unit = next((leaf.unit for leaf in value.leaves() if leaf.unit and leaf.dimension == value.dimension), NO_UNIT)
    return "" if value.unit is NO_UNIT else value.unit


def usual_unit(dimension, bench, value):
    return default_unit(str(dimension), bench.system, value)


def plain_words(value):
    """A choice as it is said: hydraulic_roller becomes hydraulic roller."""
    if value is None:
        return "not written"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value).replace("_", " ")


def show_value(value, bench):
    """A Value as the builder wrote it, or a computed one in the builder's unit."""
    if value.formula is None and value.text:
        return plain_words(value.text) if value.dimension in ("choice", "list", "yes_no") else value.text
    data = value.data
    if hasattr(data, "pitch"):  # a thread that follows from others is called as the one it is
        from .mechanics.threads import thread_name

        return next((leaf.text for leaf in value.leaves() if leaf.text and leaf.data == data), None) or thread_name(data)
    if isinstance(data, (int, float)) and not isinstance(data, bool):
        unit = unit_of(value) or usual_unit(value.dimension, bench, data)
        return show(float(data), str(value.dimension), unit)
    if isinstance(data, (list, tuple)) and not hasattr(data, "_fields"):
        return ", ".join(f"[{', '.join(map(str, part))}]" if isinstance(part, (list, tuple)) else plain_words(part) for part in data)
    return plain_words(data)
