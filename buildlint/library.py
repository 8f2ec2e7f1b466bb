"""Many specs in one run: workers, one spec's misfortune kept to itself, and answers in the order they were asked for.

A worker gives back finished text for every output and a row for the summary, never findings: text is cheap to
hand over. Whether an answer can be taken from an earlier run is asked of ``cache``. Nothing is printed here.
"""

import gc
import os
from typing import NamedTuple

from . import patience
from .model import FAIL, STAGES, Report

ENOUGH_FOR_WORKERS = 150  # below this many specs starting workers takes longer than they save
BATCH = 16
MANY_OBJECTS = 50_000  # made between two looks for garbage: a spec or two
DETAILED = ("json", "summary", "html")
OF_A_FILE = frozenset(("spec-is-well-formed", "file-is-readable", "value-is-plain-data", "key-is-written-once", "catalogue-is-sound",
                       "key-is-known", "choice-is-known", "value-has-its-shape", "quantity-can-be-read"))
ADVISING = ("terminal", "markdown", "html")


class Job(NamedTuple):
    """What is the same for every spec of a run: the outputs as (format, wishes), the stage to judge at, folders of
    outside rules, known findings (``known.Known`` or None), changed lines {file: set of lines} or None, and whether
    there is more than one spec."""

    outputs: tuple
    stage: str | None = None
    folders: tuple = ()
    known: object = None
    changed: dict | None = None
    many: bool = False

    @property
    def detail(self):
        """Whether any output tells the numbers of what passes."""
        return any(form in DETAILED or wishes.every for form, wishes in self.outputs)

    @property
    def advice(self):
        """Whether any output tells which few inputs would settle most."""
        return any(form in ADVISING for form, _ in self.outputs)


class Answer(NamedTuple):
    """What came of one spec: counts, a sheet for each output, the rules that broke down, a row for the summary,
    and, where it could not be checked at all, why, and whether that ``holds_up`` others too. ``gone`` are known findings
    that are no longer there, ``shared`` findings about files that other specs may lean on, told once for all of them;
    ``spec`` is False where it is about a file of the catalogue."""

    path: str
    counts: dict
    sheets: tuple
    crashed: tuple = ()
    row: dict | None = None
    unread: str | None = None
    lost: bool = False
    gone: tuple = ()
    inputs: tuple = ()
    holds_up: bool = False
    shared: tuple = ()
    spec: bool = True


def run(paths, job, workers=None, kept=None):
    """Yield an Answer for each path, in that order.

    ``workers`` is how many processes share the work, or None to choose; ``kept`` a Cache or None. Raises
    road.CannotStart before the first answer when the rule set is not sound.
    """
    from . import road

    road.take_rules_from(job.folders)
    road.rules()
    job = job._replace(many=len(paths) > 1)
    waiting = dict.fromkeys(range(len(paths)))
    if kept is not None:
        for number in list(waiting):
            found = kept.find(paths[number])
            if found is not None:
                waiting[number] = found
    missing = [number for number, answer in waiting.items() if answer is None]
    if workers is None:
        workers = (os.cpu_count() or 1) if len(missing) >= ENOUGH_FOR_WORKERS else 1
    fresh = _in_workers(paths, missing, job, workers) if workers > 1 and len(missing) > 1 else _alone(paths, missing, job)
    for number in range(len(paths)):
        found = waiting[number]
        if found is None:
            at, found = next(fresh)
            assert at == number, "answers come in the order of the paths"
            if kept is not None:
                kept.keep(found)
        yield found


def _alone(paths, numbers, job):
    known = {}
    for count, number in enumerate(numbers):
        if count == 1:
            collect_from_here()
        yield number, answer(paths[number], job, known)
    gc.unfreeze()


def collect_from_here():
    """Collect garbage as specs come and go, without looking again and again through what is there for all of them."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(MANY_OBJECTS)
    gc.enable()


def answer(path, job, known=None):
    """Check one spec and put its answer into words for every output."""
    from . import road

    try:
        report = road.check(path, stage=job.stage, known=known, detail=job.detail, advice=job.advice)
    except road.CannotStart as error:
        return Answer(path, {}, (), unread=str(error), holds_up=error.holds_up_others)
    return told(report, job, path)


def told(report, job, path):
    """The Answer of a Report: known findings marked, unchanged lines left out, every output written."""
    from .render import module, summary, tally

    gone, before = (), 0
    if job.known is not None:
        report, before, gone = job.known.marked(report)
    if job.changed is not None:
        report = only_changed(report, job.changed)
    shorter, shared = _told_once(report) if job.many else ({}, ())
    sheets = tuple(module(form).sheet(shorter.get(form, report), wishes) for form, wishes in job.outputs)
    counts = tally(report.findings)
    counts["known"] = before
    return Answer(path, counts, sheets, report.crashed, summary.row(report) if job.detail else None, gone=gone,
                  inputs=report.inputs, shared=shared)


def _told_once(report):
    """What people need not read for every spec: ({format: the Report without it}, findings about other files).

    Templates and catalogue are the same for many specs, and so is what is wrong in them. On a spec's sheet one line for
    each of the files is left.
    """
    own, brief, shared, files = [], [], [], set()
    for finding in report.findings:
        file = finding.place.file if finding.place is not None else report.path
        if finding.kind != FAIL or finding.permit or finding.rule not in OF_A_FILE or file == report.path:
            own.append(finding)
            brief.append(finding)
            continue
        shared.append(finding._replace(pointer="", related=(), edit=None))  # as it is for every spec
        if file not in files:
            files.add(file)
            brief.append(finding._replace(message="This file has mistakes of its own; they are told once, at the end.", fix="",
                                          related=(), edit=None))
    if not shared:
        return {}, ()
    return {"lines": report._replace(findings=tuple(own)), "terminal": report._replace(findings=tuple(brief))}, tuple(shared)


def only_changed(report, changed):
    """The Report with failures on lines that were not changed left out; what is about the whole spec stays where the spec,
    or a file that it lies on, was changed."""
    files = {os.path.realpath(path) for path in changed}
    touched = not files.isdisjoint(os.path.realpath(path) for path in (report.path, *(path for path, _ in report.inputs)))

    def stays(finding):
        place = finding.place
        if finding.kind != FAIL or finding.rule in report.crashed:
            return True
        if place is None or not finding.pointer:
            return touched
        lines = changed.get(os.path.normpath(place.file), ())
        return any(line in lines for line in range(place.line, max(place.end_line, place.line) + 1))

    return report._replace(findings=tuple(filter(stays, report.findings)))


# -- what no spec takes ------------------------------------------------------------------------------------


def of_catalogues(specs, job, told_of):
    """Yield an Answer for each file of the shops' catalogues with something wrong in it that no spec has told of.

    ``told_of`` holds (file, line) of what was told already, and is asked when all specs are through.
    """
    from .render import WITH_PAGES

    outputs = tuple(one for one in job.outputs if one[0] not in WITH_PAGES)  # a page is of a build
    for report in reports_of_catalogues(specs, job.stage):
        before, gone = 0, ()
        if job.known is not None:
            report, before, gone = job.known.marked(report)
        report = report._replace(findings=tuple(finding for finding in report.findings
                                                if (finding.place.file, finding.place.line) not in told_of))
        found = told(report, job._replace(outputs=outputs, many=False, known=None), report.path)
        found.counts["known"] = before
        sheets = iter(found.sheets if report.findings else [""] * len(outputs))
        yield found._replace(spec=False, gone=gone, row=found.row if report.findings else None,
                             sheets=tuple("" if form in WITH_PAGES else next(sheets) for form, _ in job.outputs))


def reports_of_catalogues(specs, stage=None):
    """Yield a Report for each file of the shops' catalogues with something wrong in it."""
    from . import judge, on_the_shelf, road

    for root, label in on_the_shelf.catalogues_of(specs).items():
        try:
            units = road.standard_for(os.path.join(root, "any.yaml")).units
        except road.StandardNotSound:
            continue  # told for every spec
        for file, problems in on_the_shelf.unsound(root, label, road.words(), road.ways(), units).items():
            yield Report(file, "", stage or STAGES[0], judge.order(map(road.problem_found, problems)))


# -- workers ----------------------------------------------------------------------------------------------


def _in_workers(paths, numbers, job, workers):
    """Yield (number, Answer) in order, from batches that workers share; a worker that dies loses one spec."""
    from concurrent.futures.process import BrokenProcessPool

    batches = [numbers[begin:begin + BATCH] for begin in range(0, len(numbers), BATCH)]
    waiting = list(range(len(batches)))
    results = {}
    while waiting:
        crew = pool(job, workers)
        try:
            futures = {at: crew.submit(_batch, [paths[number] for number in batches[at]]) for at in waiting}
            for at in list(waiting):
                results[at] = futures[at].result()
                waiting.remove(at)
                yield from zip(batches[at], results.pop(at))
        except BrokenProcessPool:
            # one of the specs under way killed its worker: the first batch that is not done is taken spec by spec
            crew.shutdown(wait=True, cancel_futures=True)  # a broken crew that is left alone may stumble over itself at the end
            at = waiting.pop(0)
            yield from ((number, _by_itself(paths[number], job)) for number in batches[at])
        finally:
            crew.shutdown(wait=not waiting, cancel_futures=True)  # a crew that is done with its work is seen off, or may stumble at the end


def _by_itself(path, job):
    """One spec in a worker of its own, so that nothing else is lost with it."""
    import time
    from concurrent.futures.process import BrokenProcessPool

    last_words = _context().Array("c", 400)
    crew = pool(job, 1, last_words)
    began = time.monotonic()
    try:
        return crew.submit(_batch, [path]).result()[0]
    except BrokenProcessPool:
        why = last_words.value.decode("utf-8", "replace")
        if not why and time.monotonic() - began >= patience.FOR_A_WORKER * patience.TICK:
            why = f"no answer came within {patience.FOR_A_WORKER} seconds"
        return Answer(path, {}, (), unread=f"{path}: {why and f'{why}; '}the worker that checked it was killed; it is not checked", lost=True)
    finally:
        crew.shutdown(wait=True, cancel_futures=True)


def _context():
    import multiprocessing

    ways = multiprocessing.get_all_start_methods()
    return multiprocessing.get_context("fork" if "fork" in ways else "spawn")


def pool(job, workers, last_words=None):
    """Return a pool of worker processes that are ready to check: the rules of the job loaded, Ctrl-C left to the caller."""
    from concurrent.futures import ProcessPoolExecutor

    return ProcessPoolExecutor(workers, _context(), _begin, (job, last_words))


_JOB = None
_KNOWN = {}


def _begin(job, last_words):
    """Make a worker ready: rules loaded, Ctrl-C left to the one who started it; it ends itself where a rule does not end."""
    import signal

    from . import road

    global _JOB

    def leave(rule):
        if last_words is not None:
            last_words.value = patience.not_stopped(rule).encode()[:399]
        os._exit(1)

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    patience.last_resort = leave
    road.take_rules_from(job.folders)
    road.rules()
    _JOB = job
    collect_from_here()


def _batch(paths):
    """The answers for some specs. Where nothing else stops a rule, the process is ended from beside it."""
    import faulthandler

    answers = []
    with open(os.devnull, "w") as nowhere:
        for path in paths:
            faulthandler.dump_traceback_later(patience.FOR_A_WORKER * patience.TICK, exit=True, file=nowhere)
            answers.append(answer(path, _JOB, _KNOWN))
        faulthandler.cancel_dump_traceback_later()
    return answers
