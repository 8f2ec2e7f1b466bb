"""When a part can be there and when it is needed: calendar dates as they are written, and days between them.

The clock is never asked; today is not known here. Only whole days count.
"""

from datetime import timedelta

from ..dimensions import Choice, Date, Entries, Time
from ..quantities import q
from ..tables.order_items import LONG_BLOCK_WAITS_AT, LONG_BLOCK_WAITS_FOR

DAY = q("1 day")


def lead_altogether(lead_time: Time, shipping_time: Time = None, check_in_time: Time = None) -> Time:
    """From the order to the bench: the maker's time, the road, and unpacking and measuring.

    s. Source: arithmetic.
    """
    return lead_time + (shipping_time if shipping_time is not None else 0 * lead_time) + (
        check_in_time if check_in_time is not None else 0 * lead_time)


def goes_out_on__as_written(ordered_on: Date) -> Date:
    """The day a line of the order goes out: as it is written.

    Source: the order.
    """
    return ordered_on


def goes_out_on__after_measurement(waits_for: Choice, steps_done: Entries = None, steps_wanted_on: Entries = None,
                                   order_date: Date = None) -> Date:
    """The day a line that waits for a measurement can go out: when that step is done, or is wanted to be.

    Never before the order itself. Source: arithmetic.
    """
    day = (steps_done or {}).get(waits_for) or (steps_wanted_on or {}).get(waits_for)
    return None if day is None else max(day, order_date or day)


def goes_out_on__with_the_order(order_date: Date, waits_for: Choice = None) -> Date:
    """The day a line that waits for nothing goes out: with the order.

    Source: the order.
    """
    return order_date if waits_for is None else None


def ready_on__arrived(arrived_on: Date, check_in_time: Time = None) -> Date:
    """The day a part that has come can be used: arrival and check-in.

    Source: arithmetic.
    """
    return arrived_on + _days(check_in_time)


def ready_on__expected(goes_out_on: Date, lead_altogether: Time) -> Date:
    """The day a part can be used: order, maker's time, road and check-in.

    Source: arithmetic.
    """
    return goes_out_on + _days(lead_altogether)


def wanted_on__as_written(needed_by: Date) -> Date:
    """The day a part must be there: as it is written.

    Source: the order.
    """
    return needed_by


def wanted_on__by_step(needed_for: Choice, steps_wanted_on: Entries) -> Date:
    """The day a part must be there: when the shop wants to do the step that uses it.

    Source: the list of work.
    """
    return steps_wanted_on.get(needed_for)


def slack(ready_on: Date, wanted_on: Date) -> Time:
    """Days between a part being ready and being needed; negative when it comes too late.

    s. Source: arithmetic.
    """
    return (wanted_on - ready_on).days * DAY


def order_by(wanted_on: Date, lead_altogether: Time) -> Date:
    """The last day on which a part can be ordered and still be ready.

    Source: arithmetic.
    """
    return wanted_on - _days(lead_altogether)


def longest_wait(order_lines: Entries, steps_done: Entries = None, steps_wanted_on: Entries = None,
                 order_date: Date = None) -> Entries:
    """The part for which a long block waits longest: its line, its item, the days, when it was wanted and will be ready.

    Only parts that are still to come, and that an engine needs when it is together already. None where nothing waits.
    Source: arithmetic.
    """
    longest = None
    for line, row in enumerate(order_lines, 1):
        needed_for = row.get("needed_for")
        if row.get("arrived_on") is not None or row.get("lead_time") is None:
            continue
        if needed_for not in LONG_BLOCK_WAITS_AT if needed_for else row["item"] not in LONG_BLOCK_WAITS_FOR:
            continue
        out = row.get("ordered_on") or (
            goes_out_on__after_measurement(row["waits_for"], steps_done, steps_wanted_on, order_date) if row.get("waits_for")
            else order_date)
        wanted = row.get("needed_by") or (steps_wanted_on or {}).get(needed_for)
        if out is None or wanted is None:
            continue
        ready = ready_on__expected(out, lead_altogether(row["lead_time"], row.get("shipping_time"), row.get("check_in_time")))
        days = (ready - wanted).days
        if days > 0 and (longest is None or days > longest["days"]):
            longest = {"line": line, "item": row["item"], "days": days, "wanted": wanted, "ready": ready}
    return longest


def storage_time(assembly_storage_from: Date, assembly_storage_until: Date) -> Time:
    """How long the engine waits: from the first to the last day of storage.

    s. Source: arithmetic.
    """
    return (assembly_storage_until - assembly_storage_from).days * DAY


def _days(time):
    """A time in whole days, a part of a day counted as one."""
    whole = 0.0 if time is None else float(time) / float(DAY)
    return timedelta(days=-int(-whole // 1))
