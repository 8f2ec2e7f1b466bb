"""Rules of Hollow Creek Engine Works."""

RULEBOOK = 1
