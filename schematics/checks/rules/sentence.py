"""Sentences as data: which words are used when, and what is printed in them; filled in here or in a page."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import Any, TypeAlias

from schematics.checks.rules.garment_numbers import grain_of_tree
from schematics.crochet.varied_fabric import FabricError
from schematics.units import AnyGrain
from schematics.wearer.body import Body, Origin
from schematics.wearer.expr import End, Expr, OfBody, Operand, expr_json, node


class Answer(IntEnum):
    """What a rule says, the larger the worse."""

    GOOD = 0
    UNKNOWN = 1
    MIND = 2
    STOP = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Words that are used where the rule gives that ``answer`` and ``when`` is true; None is always so.

    After the ``last`` no more words follow. ``uses`` are the measurements they rest on, for ``{borrowed}``.
    """

    text: str
    answer: Answer | None = None
    when: Expr | None = None
    uses: tuple[Body, ...] = ()
    last: bool = False


Clause: TypeAlias = tuple[Words, ...]
"""Alternatives: the first that suits is used, nothing where none does."""


def for_any(text: str, when: Expr | None = None, uses: tuple[Body, ...] = ()) -> Words:
    """Words for any answer."""
    return Words(text=text, when=when, uses=uses)


def to_stop(text: str, when: Expr | None = None) -> Words:
    """Words for a rule that stops."""
    return Words(text=text, answer=Answer.STOP, when=when)


def to_mind(text: str, when: Expr | None = None) -> Words:
    """Words for a rule to be minded."""
    return Words(text=text, answer=Answer.MIND, when=when)


class Shown(StrEnum):
    """How figures are printed.

    - ``compared``: two lengths and their gap, so that they agree with each other;
    - ``length``: the size of a length; ``at least`` rounded up;
    - ``percent``: a fraction, unlike any limit after it that it is held against; ``signed`` with its sign;
    - ``origin``: where a body measurement comes from, and which end of its spread it is.
    """

    COMPARED = "compared"
    LENGTH = "length"
    AT_LEAST = "at least"
    PERCENT = "percent"
    SIGNED = "signed"
    ORIGIN = "origin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """Figures that are printed in the place of their ``names``, in braces, in a sentence."""

    kind: Shown
    names: tuple[str, ...]
    of: tuple[Expr, ...]

    @property
    def grains(self) -> tuple[AnyGrain, AnyGrain]:
        """How finely each of two lengths that are compared is printed."""
        first, second = map(grain_of_tree, self.of)
        return first, second


def compared(names: str, first: Operand, second: Operand) -> Printed:
    """Two lengths and their gap, by three names."""
    return Printed(kind=Shown.COMPARED, names=tuple(names.split()), of=(node(first), node(second)))


def length(name: str, length_cm: Operand, kind: Shown = Shown.LENGTH) -> Printed:
    """A length, either sign."""
    return Printed(kind=kind, names=(name,), of=(node(length_cm),))


def percent(name: str, fraction: Operand, *against: Operand, kind: Shown = Shown.PERCENT) -> Printed:
    """A fraction and the limits it is held against."""
    return Printed(kind=kind, names=(name,), of=tuple(map(node, (fraction, *against))))


def origin(name: str, body: OfBody) -> Printed:
    """Fills a word with the table or tape that a measurement comes from."""
    return Printed(kind=Shown.ORIGIN, names=(name,), of=(body,))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """What a rule says of its answer, whoever prints it.

    ``subject`` is what it is about, such as ``whether the neck is tight``. The ``clauses`` follow each other;
    in them are names of ``printed`` figures, and ``{borrowed}``: what is from another table, in brackets.
    ``amiss`` is what is amiss where it does not hold, in a few words, or may be: "the neck is tight".
    """

    subject: str
    clauses: tuple[Clause, ...]
    printed: tuple[Printed, ...]
    amiss: Clause

    def trees(self) -> Iterator[Expr]:
        """Every tree in it."""
        for words in (each for clause in (*self.clauses, self.amiss) for each in clause):
            yield from () if words.when is None else (words.when,)
        for each in self.printed:
            yield from each.of


_TENTHS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

IN_WORDS = (
    (0.05, "fewer than one in ten"),
    *((number / 10 + 0.05, f"about {word} in ten") for number, word in enumerate(_TENTHS[:-1], start=1)),
    (0.9, "not quite nine in ten"),
    (0.95, "about nine in ten"),
    (math.inf, "nearly all"),
)
"""The words for a chance below each of these; nine in ten are enough, so what is short of them says so."""

SURE = {
    "holds": "It holds by {margin}, give or take {sd}{so} {chance} do.",
    "minded": "It is short of a stop by {margin}, give or take {sd}{so} {chance} stay short of it.",
    "fails": "It fails by {margin}, give or take {sd}{so} {chance} hold.",
    "at_limit": "It is right at its limit, give or take {sd}{so} {chance} hold.",
    "at_stop": "It is right at a stop, give or take {sd}{so} {chance} stay short of it.",
}
"""How sure a finding is, or of what is minded as it is measured, that it does not stop; the last two where
the margin would print as nought. The chance is one of `IN_WORDS`, and what leads to it one of `SO`."""

SO = {
    "alone": ":",
    "all": ", where it is tightest; but several things must hold at once:",
    "any": ", where it is easiest; but one of several ways is enough:",
}
"""What leads from the margin to the chance: to its own, or to that of ``all`` of several comparisons, which
is smaller, or of ``any``, which is larger."""

TO_BE_SURE = "To be sure, {measure}."

_COUNT = "count the {counted} of a larger swatch for the {{parts}}, over {{twice}}"
_PULL = "pull the swatch of the {{parts}} again {direction}, and give the mean and how many pulls it is of"
MEASURE = {
    "body": "measure the {body}",
    "again": "measure the {body} again",
    FabricError.STITCHES: _COUNT.format(counted=FabricError.STITCHES),
    FabricError.ROWS: _COUNT.format(counted=FabricError.ROWS),
    FabricError.DRIFT: "hold the {parts} against the swatch as the work grows",
    FabricError.ACROSS: _PULL.format(direction="along its rows"),
    FabricError.ALONG: _PULL.format(direction="from row to row"),
}
"""What to measure to be surer: a body measurement, one that was measured, or an error of a fabric."""

MISSING = {
    "one": (
        "{missing} is not known, so {subject} cannot be checked: measure it{height}, or give a child's age."
    ),
    "many": (
        "{missing} are not known, so {subject} cannot be checked: measure them{height}, or give a child's "
        "age."
    ),
    "height": ", or the height to estimate from",
}
"""The words for a rule that lacks a measurement; ``height`` where that would do instead."""

ORIGINS = {
    Origin.OWN: "measured",
    Origin.CHART: "from the chart",
    Origin.AGE_TABLE: "from the age table",
    Origin.ESTIMATE: "estimated",
}
"""Where a measurement comes from."""

ENDS = {End.LOW: "low end", End.TYPICAL: "typical", End.HIGH: "high end"}
"""Which end of a size's spread a body figure is."""

HELD = "{origin}'s {held}"
"""Where a measurement comes from whose wearer is beyond the age table, and which end of it answers."""

BORROWED, BORROWED_FROM = " ({origins})", "{origin}: {bodies}"
"""What of a verdict is from another table: all of it, and for each of ``origins``, semicolons between."""


def sentence_json(sentence: Sentence) -> dict[str, Any]:
    """The sentence as plain JSON values."""
    return {
        "clauses": [_clause_json(clause) for clause in sentence.clauses],
        "amiss": _clause_json(sentence.amiss),
        "printed": [
            {"kind": each.kind.value, "names": each.names, "of": [expr_json(tree) for tree in each.of]}
            | ({"grains": [grain.value for grain in each.grains]} if each.kind is Shown.COMPARED else {})
            for each in sentence.printed
        ],
    }


def _clause_json(clause: Clause) -> list[dict[str, Any]]:
    return [
        {
            "text": words.text,
            "answer": None if words.answer is None else words.answer.name.lower(),
            "when": None if words.when is None else expr_json(words.when),
            "uses": [body.value for body in words.uses],
            "last": words.last,
        }
        for words in clause
    ]
