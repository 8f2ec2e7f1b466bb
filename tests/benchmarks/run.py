"""Measures buildlint against general programs on the same file, as ratios within one run.

    .venv/bin/python tests/benchmarks/run.py [SPEC]

Times drift from hour to hour; ratios within one run hold. Budgets stand beside each figure; nothing fails
here, since a busy machine is not a broken program. Peers are general tools from the extra ``benchmark``:
a JSON Schema checker and a YAML style checker for the command line. A peer that is not installed is named.
"""

import gc
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

import generate  # noqa: E402
import yaml  # noqa: E402

from buildlint import road  # noqa: E402


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


def beside(name):
    """A program installed beside this interpreter, or on the path; None when absent."""
    own = Path(sys.executable).parent / name
    return str(own) if own.exists() else shutil.which(name)


def main(spec):
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
    load = warm(lambda: yaml.load(text, Loader=yaml.CSafeLoader))
    line("yaml.load with the C safe loader", load, load)
    line("whole check, all rules", warm(lambda: road.check(spec, text=text)), load, "1.0, aim 0.7")

    print("\nA library in one process, per spec" + " " * 40 + "ratio to loading the same files")
    with tempfile.TemporaryDirectory() as folder:
        for count in (100, 1000):
            paths = generate.write(spec, Path(folder) / str(count), count)
            begin = time.perf_counter()
            for path in paths:
                yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)
            loading = (time.perf_counter() - begin) * 1000 / count
            begin = time.perf_counter()
            for path in paths:
                road.check(path)
            checking = (time.perf_counter() - begin) * 1000 / count
            line(f"{count} specs", checking, loading)


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else ROOT / "examples" / "good.yaml")
