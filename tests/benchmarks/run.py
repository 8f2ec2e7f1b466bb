"""Measures buildlint against general programs on the same file, as ratios within one run.

    .venv/bin/python tests/benchmarks/run.py [SPEC [SIZE ...]]
    .venv/bin/python tests/benchmarks/run.py examples/good.yaml 100 1000 10000    # some minutes

Each SIZE is a library of that many specs; the general programs are given the same files or the same folder.

Times drift from hour to hour; ratios within one run hold. Budgets stand beside each figure; nothing fails
here, since a busy machine is not a broken program. Peers are general tools from the extra ``benchmark``:
a JSON Schema checker and a YAML style checker for the command line. A peer that is not installed is named.
"""

import gc
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
sys.path.insert(0, str(ROOT))
sys.path.insert(0, str(HERE))

PEERS_TO = 500  # specs; beyond it the general programs take many minutes, and their time for each is known

import generate  # noqa: E402
import yaml  # noqa: E402

from buildlint import library, road  # noqa: E402


def cold(command, rounds=11):
    """Median wall time of a whole process, in ms."""
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL, cwd=ROOT)
        times.append((time.perf_counter() - begin) * 1000)
    return statistics.median(times)


def warm(function, rounds=60):
    """Median time of a call in a warm process, in ms."""
    function()
    gc.collect()
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        function()
        times.append((time.perf_counter() - begin) * 1000)
    return statistics.median(times)


def line(what, value, against=None, budget=None):
    ratio = f"{value / against:6.2f}" if against else " " * 6
    allowed = f"  budget {budget}" if budget is not None else ""
    print(f"{what:58} {value:9.2f} ms {ratio}{allowed}")


def against(other, own):
    """How many times as long another program takes, on a line of its own."""
    print(f"{'  against buildlint, one worker':58} {other / own:9.2f} times as long")


def beside(name):
    """A program installed beside this interpreter, or on the path; None when absent."""
    own = Path(sys.executable).parent / name
    return str(own) if own.exists() else shutil.which(name)


def main(spec, sizes):
    text = Path(spec).read_bytes()
    print(f"{Path(spec).name}: {len(text)} bytes, {len(text.splitlines())} lines; {len(road.rules())} rules\n")

    print("Cold start, whole process" + " " * 49 + "ratio to the schema checker")
    program = [sys.executable, "-m", "buildlint", "check", str(spec)]
    bare = cold([sys.executable, "-c", "pass"])
    checker = beside("check-jsonschema")
    schema = cold([checker, "--schemafile", str(ROOT / "schemas" / "build.json"), str(spec)]) if checker else None
    line("bare Python", bare, schema)
    if schema:
        line("JSON Schema checker on the same file", schema, schema)
    else:
        print("the JSON Schema checker check-jsonschema is not installed: pip install '.[benchmark]'")
    style = beside("yamllint")
    if style:
        line("YAML style checker on the same file", cold([style, "-d", "relaxed", str(spec)]), schema)
    line("check, one line a finding", cold([*program, "--format", "lines"]), schema, "0.35, aim 0.25")
    line("check, terminal", cold([*program, "--color", "always"]), schema, "0.45, aim 0.35")

    print("\nOne spec in a warm process" + " " * 48 + "ratio to the C safe load")
    check = lambda **wishes: road.check(spec, text=text, **wishes)  # noqa: E731
    check()
    library.collect_from_here()  # as the command does from its second spec on
    load = warm(lambda: yaml.load(text, Loader=yaml.CSafeLoader))
    line("yaml.load with the C safe loader", load, load)
    line("whole check, all rules, what the one-line output needs", warm(lambda: check(detail=False, advice=False)), load, "1.0, aim 0.7")
    line("whole check, all rules, every number and all advice", warm(check), load)
    asked, worked_out = own_functions(check)
    line(f"of it the {asked.count} answers of rules alone, everything known", warm(asked), load)
    line(f"of it the {worked_out.count} numbers that formulas give, the same", warm(worked_out), load)

    print("\nA library, whole process" + " " * 50 + "ratio to loading the same files in one process")
    with tempfile.TemporaryDirectory() as folder:
        loading = per_spec = 0.0
        for count in sizes:
            place = Path(folder) / str(count)
            paths = generate.write(spec, place, count)
            loading = timed(lambda: [yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader) for path in paths])
            one, memory = whole_run(place, Path(folder), "--workers", "1", "--fresh")
            line(f"{count} specs, one worker", one, loading)
            if per_spec:
                print(f"{'  time for each spec against the size before':58} {one / count / per_spec:9.2f}            budget 0.90 to 1.10")
            print(f"{'  most memory held by one process':58} {memory:9.0f} MB")
            per_spec = one / count
            if checker and count <= PEERS_TO:
                took = timed(lambda: quiet([checker, "--schemafile", str(ROOT / "schemas" / "build.json"), *(path.name for path in paths)], place))
                line(f"{count} specs, JSON Schema checker given every file", took, loading)
                against(took, one)
            if style and count <= PEERS_TO:
                took = timed(lambda: quiet([style, "-d", "relaxed", "."], place))
                line(f"{count} specs, YAML style checker given the folder", took, loading)
                against(took, one)
        two, _ = whole_run(place, Path(folder), "--workers", "2")
        line(f"{count} specs, two workers, first run", two, loading, "0.6")
        print(f"{'  one worker against two':58} {one / two:9.2f}            budget 1.9 or more")
        again, _ = whole_run(place, Path(folder), "--workers", "2")
        line("  the same again, nothing changed", again)
        print(f"{'  against its first run':58} {again / two:9.3f}            budget 0.05, aim 0.02")


class Calls:
    """Calls of functions as they were made in a check, to be made again."""

    def __init__(self):
        self.made = []

    @property
    def count(self):
        return len(self.made)

    def noted(self, function):
        """The function, which notes down how it was called."""
        def noting(*given, **limits):
            answer = function(*given, **limits)
            self.made.append((function, given, limits))
            return answer
        return noting

    def __call__(self):
        for function, given, limits in self.made:
            function(*given, **limits)


def own_functions(check):
    """(Calls of rules, Calls of formulas) of one check: what no way of asking could leave out."""
    asked, worked_out = Calls(), Calls()
    rules, ways = [rule for rule in road.rules() if rule.scope != "value"], road.ways()
    before = [rule.function for rule in rules], dict(ways)
    for rule in rules:
        rule.function = asked.noted(rule.function)
    ways.update({word: [way._replace(function=worked_out.noted(way.function)) for way in all_ways] for word, all_ways in ways.items()})
    check(detail=False, advice=False)
    for rule, function in zip(rules, before[0]):
        rule.function = function
    ways.update(before[1])
    return asked, worked_out


def quiet(command, folder):
    """Run another program to its end in a folder; what it says is left aside."""
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL, cwd=folder)


def timed(function):
    """Wall time of one call in ms."""
    begin = time.perf_counter()
    function()
    return (time.perf_counter() - begin) * 1000


WATCHED = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


def whole_run(library, kept, *options):
    """(wall time in ms, most memory in MB) of a check of a library in a process of its own, its cache below ``kept``."""
    command = [sys.executable, "-m", "buildlint", "check", str(library), "--format", "summary", *options]
    surroundings = {**os.environ, "XDG_CACHE_HOME": str(kept / "cache")}
    begin = time.perf_counter()
    memory = subprocess.run([sys.executable, "-c", WATCHED, *command], capture_output=True, text=True, cwd=ROOT, env=surroundings).stdout
    return (time.perf_counter() - begin) * 1000, int(memory) / (1 if sys.platform == "darwin" else 1024) / (1024 if sys.platform == "darwin" else 1)


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else ROOT / "examples" / "good.yaml", [int(size) for size in sys.argv[2:]] or [200, 400])
