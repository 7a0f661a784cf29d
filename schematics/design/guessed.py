"""What in a design is guessed, not measured, until the designer says otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.design.design import Design

GUESSED = "guessed, not measured"
"""Beside every figure that is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """One thing guessed: ``what`` it is as a maker calls it, and ``key``, its place in the spec."""

    what: str
    key: str


def guessed(design: Design) -> tuple[Guess, ...]:
    """Everything that the spec marks as guessed, in the order of the parts."""
    return tuple(_guessed(design))


def _guessed(design: Design) -> Iterator[Guess]:
    for fabric in design.parts.fabrics.values():
        for key, what, guess in (
            ("swatch", "gauge", fabric.swatch.guessed),
            ("stretch", "stretch", fabric.stretch_guessed),
            ("turning_chains", "turning chains", fabric.turning_chains_guessed),
        ):
            if guess:
                words = f"{what} of the {design.parts.named_for(fabric)}"
                yield Guess(what=words, key=f"fabrics.{fabric.name}.{key}")


def guessed_sentence(design: Design) -> str:
    """What is guessed, in one sentence for a maker; empty if nothing is."""
    *others, last = [each.what for each in guessed(design)] or [""]
    listed = f"{', '.join(others)} and {last}" if others else last
    return listed and f"These are {GUESSED}: {listed}. What follows from them may come out otherwise."


def marked(words: str, *, guess: bool) -> str:
    """The words of a figure, marked where it is guessed."""
    return f"{words} ({GUESSED})" if guess else words
