"""What all the specs of a run come to, added up answer by answer; every format's closing is drawn from it."""

from . import COUNTS


class Totals:
    """The sums of a run.

    ``counts`` is as ``tally`` gives it, with "known" for findings that were known before; ``specs`` how many were
    checked; ``crashed`` the rules that broke down, ``rows`` a row of ``summary`` for each spec, ``gone`` known findings
    that are no longer there, ``unchecked`` (path, why) of each spec that could not be checked, and ``held_up`` {why: how
    many} of what stands in the way of several. ``lost`` says whether a worker was lost with its spec, ``unread`` whether
    a spec could not be begun, ``told_of`` the (file, line) of everything in ``shared``.
    """

    def __init__(self):
        self.counts, self.specs = dict.fromkeys((*COUNTS, "known"), 0), 0
        self.crashed, self.rows, self.gone, self.unchecked, self.held_up = [], [], [], [], {}
        self.lost = self.unread = False
        self.told_of, self._shared = set(), {}

    @property
    def shared(self):
        """[(finding, number of specs)] of what is wrong in files that specs lean on, in the order of the files."""
        return sorted(self._shared.items(), key=lambda pair: pair[0].place)

    def add(self, answer):
        """Add one ``library.Answer``."""
        if answer.unread is not None:
            self.unchecked.append((answer.path, answer.unread))
            self.lost, self.unread = self.lost or answer.lost, self.unread or not answer.lost
            if answer.holds_up:
                self.held_up[answer.unread] = self.held_up.get(answer.unread, 0) + 1
            return
        self.specs += answer.spec
        for counted, count in answer.counts.items():
            self.counts[counted] += count
        self.crashed += [rule for rule in answer.crashed if rule not in self.crashed]
        self.rows += [answer.row] if answer.row is not None else []
        self.gone += answer.gone
        for finding in answer.shared:
            self._shared[finding] = self._shared.get(finding, 0) + 1
            self.told_of.add((finding.place.file, finding.place.line))
