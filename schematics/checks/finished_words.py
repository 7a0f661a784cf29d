"""A finished measurement held against another length, in words that read as it is printed everywhere."""

from __future__ import annotations

from schematics.checks.tape import GAP_ERRORS, Compared, Tape
from schematics.garment.printed_lengths import grain_of
from schematics.units import HAIR, Grain, printed_rounded, round_half_up, step_of


def compare_finished(tape: Tape, key: str, measured_cm: float, other_cm: float) -> Compared:
    """Both lengths in the grain of the finished measurement ``key``, or finer as by `Tape.compare`."""
    unit, grain = tape.unit, grain_of(key)
    if grain is Grain.COARSE:
        return tape.compare(measured_cm, other_cm, coarse=True)
    step = step_of(unit, grain)
    one, other = (round_half_up(unit.from_cm(cm), step) for cm in (measured_cm, other_cm))
    apart, exact = abs(one - other), abs(unit.from_cm(measured_cm - other_cm))
    if (apart > step / 2 or exact <= HAIR) and abs(apart - exact) <= GAP_ERRORS[unit]:
        return Compared(*(printed_rounded(each, unit, grain) for each in (one, other, apart)))
    return tape.compare(measured_cm, other_cm)
