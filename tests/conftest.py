"""What all tests share: the folder of the tests on the path, so that they can share a few plain functions."""

import signal
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))


@pytest.fixture
def hears_ctrl_c():
    """What a started program must do first so that Ctrl-C reaches it, also where the tests run in the background."""
    return lambda: signal.signal(signal.SIGINT, signal.default_int_handler)
