"""What all tests share: the folder of the tests on the path, so that they can share a few plain functions."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
