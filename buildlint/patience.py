"""A rule that does not come back is given up on, so that it holds up neither the other rules nor the other specs.

One timer runs while a spec is judged. At each tick it looks which rule is under way; a rule that was under way
the whole time is interrupted by an exception. Ticks are counted, not clocks read: a machine that was put to sleep
meanwhile has not let the rule run. Without such timers (not every system has them), and outside the main thread,
rules are asked without a limit.
"""

import signal

TICK = 1  # seconds; the limits below are counted in ticks
FOR_A_RULE = 5  # of one rule over one spec: many times what all shipped rules together take over a large one
FOR_A_SPEC = 60
MOST_GIVEN_UP = 3  # rules of one spec; by then something is wrong with the spec, the rules or the machine
LAST_RESORT = 15  # of a rule that is interrupted at every tick and does not let go
FOR_A_WORKER = FOR_A_SPEC + LAST_RESORT  # of one spec, where not even an interruption gets through


class OutOfPatience(BaseException):
    """Raised inside a rule that takes too long. No Exception: a rule that catches those must not catch this."""


def _goes_on(rule):
    """What is done about a rule that does not let itself be interrupted: a process that can afford to ends itself."""


def not_stopped(rule):
    """What is told of such a rule."""
    return f"the rule {rule.id} has not come back for {LAST_RESORT} seconds and does not let itself be stopped"


last_resort = _goes_on
_watching = None


class Patience:
    """``with Patience() as patience`` while a spec is judged; ``asked`` is the rule under way, or None."""

    __slots__ = ("asked", "given_up", "ticks", "_seen", "_since", "_runs")

    def __init__(self):
        self.asked = self._seen = None
        self.given_up = self.ticks = self._since = 0

    def __enter__(self):
        global _watching
        self._runs = _can_be_woken()
        if self._runs:
            _watching = self
            signal.setitimer(signal.ITIMER_REAL, TICK, TICK)
        return self

    def __exit__(self, *error):
        global _watching
        if self._runs:
            self.asked = None
            signal.setitimer(signal.ITIMER_REAL, 0)
            _watching = None

    @property
    def over(self):
        """Why the rest of the rules is not asked any more, or nothing."""
        if self.ticks >= FOR_A_SPEC:
            return f"the {FOR_A_SPEC} seconds that one spec is given were over"
        return f"{MOST_GIVEN_UP} rules had not come back" if self.given_up >= MOST_GIVEN_UP else ""

    def look(self):
        """At a tick: interrupt a rule that has had its time."""
        self.ticks += 1
        rule = self.asked
        if rule is None:
            return
        if rule is not self._seen:
            self._seen, self._since = rule, self.ticks
        taken = self.ticks - self._since
        if taken >= LAST_RESORT:
            last_resort(rule)
        if taken == FOR_A_RULE:
            self.given_up += 1
        if taken >= FOR_A_RULE or self.ticks >= FOR_A_SPEC:
            raise OutOfPatience(f"did not come back within {FOR_A_RULE} seconds" if taken >= FOR_A_RULE else
                                "was under way when the time for its spec was up")


def _tick(number, frame):
    if _watching is not None:
        _watching.look()


def _can_be_woken():
    """Whether a timer can be had: there is one, nobody else uses it, and this is the thread that it wakes."""
    if not hasattr(signal, "setitimer"):
        return False
    handler = signal.getsignal(signal.SIGALRM)
    if handler is _tick:
        return _watching is None
    if handler is not signal.SIG_DFL or signal.getitimer(signal.ITIMER_REAL)[0]:
        return False
    try:
        signal.signal(signal.SIGALRM, _tick)
    except ValueError:  # not the main thread
        return False
    return True
