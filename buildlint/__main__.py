"""``python -m buildlint`` and the command ``buildlint``."""

import atexit
import gc

# What a start makes is kept to the end: looking through it for garbage would be a tenth of a short run, and
# looking once more on the way out another. A run over many specs turns the collector on again (library).
gc.disable()
atexit.register(gc.freeze)

from buildlint.cli import main  # noqa: E402

if __name__ == "__main__":
    main()
