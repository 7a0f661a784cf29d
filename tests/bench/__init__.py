"""Measurements of time, run by hand: `make bench`."""
