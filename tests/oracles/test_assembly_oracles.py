"""The order of work against the standard library's own sorter, dates against numpy's calendar, counts against published engines.

Independent methods: graphlib (topological order and its refusal of circles), numpy.datetime64 (Gregorian days).
"""

import datetime
import graphlib
import random

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint.formulas import counts, dates
from buildlint.tables.build_sequence import JUDGED_ELSEWHERE, STEPS, circle_through, needed_before, slips, steps_for

DAY = 86400.0


def shuffled(graph, chance):
    """An order that graphlib calls valid, its free choices made by chance."""
    sorter = graphlib.TopologicalSorter(graph)
    sorter.prepare()
    order, ready = [], []
    while sorter.is_active():
        ready += sorter.get_ready()
        name = ready.pop(chance.randrange(len(ready)))
        order.append(name)
        sorter.done(name)
    return order


def test_the_table_has_a_topological_order_and_as_written_is_one():
    order = list(graphlib.TopologicalSorter({name: step.requires for name, step in STEPS.items()}).static_order())
    assert sorted(order) == sorted(STEPS)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from(["stud", "bolt"]), st.booleans(), st.sampled_from([0, 2]))
def test_every_order_that_graphlib_calls_valid_is_in_order(seed, fastener, covered, dowels):
    table = steps_for("v", fastener, covered, dowels)
    order = shuffled({name: step.requires for name, step in table.items()}, random.Random(seed))
    assert slips(order, table) == {}


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**9))
def test_two_steps_changed_about_are_in_order_exactly_when_no_prerequisite_is_broken(seed):
    chance = random.Random(seed)
    order = shuffled({name: step.requires for name, step in STEPS.items()}, chance)
    one, two = sorted(chance.sample(range(len(order)), 2))
    order[one], order[two] = order[two], order[one]
    place = {name: position for position, name in enumerate(order)}
    broken = {(step, before) for step, row in STEPS.items() for before in row.requires if place[before] > place[step]}
    elsewhere = [pair for pair in JUDGED_ELSEWHERE if place[pair[1]] > place[pair[0]]]
    found = slips(order, STEPS)
    assert bool(found) <= bool(broken)
    if broken and not elsewhere:
        assert found
        explained = {(step, before) for step, (early, late) in found.items() for before in early} | {
            (after, before) for before, (early, late) in found.items() for after in late}
        assert explained == broken


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.sampled_from("abcdefgh"), st.lists(st.sampled_from("abcdefgh"), max_size=3), max_size=8))
def test_circles_are_found_exactly_where_graphlib_refuses_to_sort(own):
    try:
        graphlib.TopologicalSorter(own).prepare()
        circular = False
    except graphlib.CycleError:
        circular = True
    found = [name for name in "abcdefgh" if circle_through(name, {}, own)]
    assert bool(found) == circular
    for name in found:
        circle = circle_through(name, {}, own)
        assert circle[0] == circle[-1] == name
        assert all(before in own.get(step, ()) for step, before in zip(circle, circle[1:]))


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**9))
def test_what_is_needed_before_is_what_can_be_reached_through_unlisted_steps(seed):
    """Reachability by closing the relation step by step, without the walk of the program."""
    chance = random.Random(seed)
    listed = set(chance.sample(list(STEPS), chance.randrange(2, len(STEPS))))
    step = chance.choice(sorted(listed))
    direct = {name: {before for before in row.requires if (name, before) not in JUDGED_ELSEWHERE} for name, row in STEPS.items()}
    wanted, edge = set(), {step}
    while edge:
        reached = set().union(*(direct[name] for name in edge))
        wanted |= reached & listed
        edge = reached - listed
    assert set(needed_before(step, STEPS, listed)) == wanted


days = st.dates(datetime.date(1990, 1, 1), datetime.date(2090, 12, 31))
waits = st.integers(0, 400)


@given(days, waits, waits, waits, days)
def test_days_agree_with_numpys_calendar(ordered, lead, road, check, wanted):
    altogether = dates.lead_altogether(lead * DAY, road * DAY, check * DAY)
    ready = dates.ready_on__expected(ordered, altogether)
    expected = numpy.datetime64(ordered) + numpy.timedelta64(lead + road + check, "D")
    assert numpy.datetime64(ready) == expected
    assert dates.slack(ready, wanted) / DAY == (numpy.datetime64(wanted) - expected) / numpy.timedelta64(1, "D")
    assert numpy.datetime64(dates.order_by(wanted, altogether)) == numpy.datetime64(wanted) - numpy.timedelta64(lead + road + check, "D")


# Published descriptions of pushrod engines in general terms: an eight with ten head fasteners to a head (twenty studs,
# as many nuts and washers, sixteen pushrods as eight and eight, thirty-two lock halves), an eight with seventeen to a
# head, an inline six with fourteen, a six in V with eight. Counted by hand.
@pytest.mark.parametrize("cylinders, heads, holes, mains, cap_bolts, pushrods, locks, studs, main_studs, rod_bolts", [
    pytest.param(8, 2, 10, 5, 4, 16, 32, 20, 20, 16, id="eight with ten to a head"),
    pytest.param(8, 2, 17, 5, 2, 16, 32, 34, 10, 16, id="eight with seventeen to a head"),
    pytest.param(6, 1, 14, 7, 2, 12, 24, 14, 14, 12, id="inline six"),
    pytest.param(6, 2, 8, 4, 4, 12, 24, 16, 16, 12, id="six in V"),
    pytest.param(4, 1, 10, 5, 2, 8, 16, 10, 10, 8, id="inline four"),
])
def test_counts_agree_with_counting_by_hand(cylinders, heads, holes, mains, cap_bolts, pushrods, locks, studs, main_studs, rod_bolts):
    valves = counts.valves_needed(cylinders)
    assert counts.pushrods_needed(valves) == counts.lifters_needed(valves) == counts.rockers_needed(valves) == pushrods
    assert counts.valve_locks_needed(valves) == locks == counts.needed__for_each_valve("valve_lock", valves)
    assert counts.head_fasteners_needed(heads, holes) == studs == counts.needed__head_fasteners("head_washer", studs)
    assert counts.main_fasteners_needed(mains, cap_bolts) == main_studs
    assert counts.rod_bolts_needed(cylinders) == rod_bolts
    assert counts.head_gaskets_needed(heads) == heads == counts.needed__for_each_head("exhaust_gasket", heads)
