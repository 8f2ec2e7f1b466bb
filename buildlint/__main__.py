"""``python -m buildlint`` and the command ``buildlint``."""

import gc

# What a start makes is kept to the end, and looking through it for garbage would be a tenth of a short run.
# A run over many specs turns the collector on again (library).
gc.disable()

from buildlint.cli import main  # noqa: E402

if __name__ == "__main__":
    main()
