"""Writes a library of distinct build specs to measure with: one spec, its numbers varied within reason.

The variation is by the number of the file alone, so that two runs measure the same library.
"""

import re
import sys
from pathlib import Path

NUMBER = re.compile(r"([0-9]+\.[0-9]{2,4})( (?:in|lbf|cc))\b")


def varied(text, number):
    """The text of a spec with its decimals moved a little, differently for each number."""
    step = [number]

    def move(match):
        step[0] = (step[0] * 1103515245 + 12345) % 2**31
        digits = len(match[1].split(".")[1])
        return f"{float(match[1]) * (1 + (step[0] % 2001 - 1000) * 2e-6):.{digits}f}{match[2]}"

    return f"# number {number}\n" + NUMBER.sub(move, text)


def write(source, folder, count):
    """Write ``count`` variations of the spec at ``source`` into ``folder``; returns their paths."""
    text = Path(source).read_text(encoding="utf-8")
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for number in range(count):
        path = folder / f"build_{number:05}.yaml"
        path.write_text(varied(text, number), encoding="utf-8")
        paths.append(path)
    return paths


if __name__ == "__main__":
    source, folder, count = sys.argv[1:]
    print(len(write(source, folder, int(count))), "specs written")
