"""Mechanics that several formulas share: pure functions of numbers in SI that are not words themselves."""
