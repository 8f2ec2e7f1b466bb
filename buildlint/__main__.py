"""``python -m buildlint`` is the command ``buildlint``."""

from buildlint.cli import main

if __name__ == "__main__":
    main()
