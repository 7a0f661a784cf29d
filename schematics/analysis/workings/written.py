"""The trees of a size as a technical editor writes them: see `schematics.analysis.workings.arithmetic`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from schematics.analysis.workings.arithmetic import DEGREES, Sum, number, result
from schematics.analysis.workings.ruler import Ruler
from schematics.crochet.fabric import Counted
from schematics.garment.amounts import (
    SIGNS,
    Count,
    CountValues,
    Formula,
    Given,
    Laid,
    Measure,
    PickedUp,
    Repeats,
    root,
    squared,
    total,
    value_of,
    worked_out,
)
from schematics.wearer.expr import Const, Expr, Op

_CALLS = {"min": "the smaller of ", "max": "the larger of "}
"""What is written before the brackets of a function where it is not its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """A count that follows from counts of the spec, and how in words.

    Where the sum is no whole number, or not the right one, ``words`` say which is ``taken``.
    """

    count: Sum
    words: str
    taken: int | None = None

    @property
    def sums(self) -> bool:
        """Whether there is anything to work out."""
        return not self.count.is_number


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One figure: its arithmetic, the unit it comes out in, and where its numbers come from.

    A ``finished`` figure is one a pattern prints. ``derived`` is how its count follows from others,
    ``swatch`` names the fabric if there is just one, ``source`` is the key of its count in the size's part
    of the spec or says in words what the arithmetic does.
    """

    key: str
    name: str
    sum: Sum
    unit: str
    source: str
    swatch: str = ""
    derived: Derived | None = None
    finished: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """Steps under one heading."""

    title: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """Writes trees over the counts of one size, lengths in the ruler's unit.

    ``spec_keys`` are the counts of the spec behind finished measurements, by the measurement's key.
    """

    counts: CountValues
    ruler: Ruler
    spec_keys: Mapping[str, str]

    def step(self, measure: Measure) -> Step:
        """A measure with its arithmetic."""
        derived = self._derived(measure)
        return Step(
            key=measure.key,
            name=measure.name,
            sum=self._length(measure),
            unit=self._unit(measure.unit),
            source="" if derived else self._words(measure) or self.spec_keys.get(measure.key, ""),
            swatch=measure.fabric or "",
            derived=derived,
            finished=measure.finished,
        )

    def sum(self, expr: Expr) -> Sum:
        """The arithmetic of a tree; of a formula in it the result only.

        Raises:
            TypeError: a node of it is of no kind that is written down.
        """
        match expr:
            case Const():
                return number(expr.value)
            case Given(value, "cm"):
                return result(self.ruler.unit.from_cm(value), self.ruler.unit.value)
            case Given(value, unit):
                return number(value, unit)
            case Count():
                return number(self.counts[expr.name], expr.counted.value)
            case Laid():
                length = self.ruler.length(self.sum(expr.count), expr.counted, expr.fabric)
                give = number(1) + number(expr.fabric.stretch(expr.counted))
                return length * give if expr.stretched else length
            case Repeats():
                return number(self._value(expr))
            case PickedUp():
                return number(self._value(expr), Counted.STITCHES.value)
            case Formula():
                return self._result(expr)
            case Op(word, args):
                return self._operation(word, args)
        raise TypeError(f"{expr!r} is no arithmetic")

    def _operation(self, word: str, args: Sequence[Expr]) -> Sum:
        sums = [self.sum(each) for each in args]
        match word, sums:
            case "²", [base]:
                return base.squared()
            case "slope", _:
                return self.sum(root(total(map(squared, args))))
            case _ if word in SIGNS:
                signed: Sum = worked_out(word, *sums)
                return signed
        text = f"{_CALLS.get(word, word)}({', '.join(each.text for each in sums)})" if sums else word
        return Sum(text, float(worked_out(word, *(each.value for each in sums))))

    def _value(self, expr: Expr) -> float:
        return float(value_of(expr, self.counts))

    def _result(self, formula: Formula) -> Sum:
        value = self._value(formula)
        if formula.unit == "cm":
            return result(self.ruler.unit.from_cm(value), self.ruler.unit.value)
        return result(value, DEGREES) if formula.unit == DEGREES else number(value, formula.unit)

    def _unit(self, unit: str) -> str:
        return unit.replace("cm", self.ruler.unit.value)

    def _length(self, measure: Measure) -> Sum:
        """Of a count that follows from others its result is taken: ``164 sts / (19 sts / 20 cm)``."""
        of = measure.expr
        if isinstance(of, Laid) and of.count == measure.count:
            count = number(self._value(of.count), of.counted.value)
            return self.ruler.length(count, of.counted, of.fabric)
        return self.sum(of)

    def _derived(self, measure: Measure) -> Derived | None:
        if measure.count is None or not measure.source:
            return None
        words = self._words(measure)
        if isinstance(measure.count, PickedUp):
            picked = measure.count
            along = self.ruler.count(self.sum(picked.along), Counted.STITCHES, picked.fabric)
            return Derived(count=along, words=words, taken=round(self._value(picked)))
        return Derived(count=self.sum(measure.count), words=words)

    def _words(self, measure: Measure) -> str:
        """What the arithmetic does, with the arithmetic it names."""
        source = measure.source
        if isinstance(source, str):
            return source
        return "".join(part if isinstance(part, str) else self.sum(part).text for part in source)
