"""Stitches of a row as a maker reads them: how many, into what, round what, on which side they cross."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from schematics.checks.wording import listed, ordinal
from schematics.crochet.charts.chart import (
    Crossing,
    Into,
    Item,
    Passing,
    SeveralInOne,
    StitchGroup,
    StitchRun,
    Worked,
    runs,
)
from schematics.crochet.stitches import Stitch
from schematics.crochet.terms import Terms
from schematics.document.chart_words.row_below import RowBelow, Strands
from schematics.document.chart_words.unworked import ON_SURFACE, replaces_stitches

_ALONE = frozenset({"ch", "sk"})


@dataclass(frozen=True, slots=True)
class StitchWords:
    """Puts items of a row into words, in the terms asked for; ``below`` is what the row finds there.

    ``surface`` are stitches that are known to lie on the surface, so that it need not be said of each.
    """

    terms: Terms
    below: RowBelow = field(default_factory=RowBelow)
    surface: Collection[Stitch] = ()

    def items(self, items: Sequence[Item], colour: str | None) -> list[str]:
        """Items one by one, changes of colour before them; ``colour`` is the one in hand, None if unknown."""
        texts: list[str] = []
        for item in items:
            shades = [run.worked.colour for run in runs([item])]
            alone = len(set(shades)) == 1
            if alone and shades[0] != colour:
                texts += self.change(shades[0])
            texts.append(self._item(item, shades[0] if alone else None))
            colour = shades[-1]
        return texts

    def change(self, colour: str) -> list[str]:
        """``with B``; nothing where the chart has one colour."""
        return [f"with {colour}"] if colour else []

    def in_each(self, run: StitchRun) -> str | None:
        """``sc in each st``; None where it takes more to say."""
        worked = run.worked
        if worked.stitch.abbreviation in _ALONE or worked.uses != 1 or not self._plainly(run):
            return None
        where = "in each st and ch" if self.below.chains(run) else "in each st"
        return f"{self._name(worked)} {'round each post' if worked.stitch.post else where}"

    def counted(self, run: StitchRun, count: str) -> str | None:
        """``3 (3, 5) sc``; None where a number alone does not say it."""
        worked = run.worked
        if not self._plainly(run) or worked.stitch.abbreviation[0].isdigit():
            return None
        if worked.stitch.abbreviation == "ch":
            return f"{self._name(worked)} {count}"
        if worked.stitch.abbreviation == "sk":
            return f"{self._skip} {count} sts"
        return f"{count} {self._name(worked)}"

    def _plainly(self, run: StitchRun) -> bool:
        """Whether it is worked in the row below as its name says."""
        return not run.worked.surface and run.worked.rows_below == 1 and self._target(run) in ("st", "post")

    def _target(self, run: StitchRun) -> str:
        """What the run goes into or round."""
        if not run.worked.stitch.post:
            return "st"
        return _ROUND[self.below.strands_or_posts(run)]

    @property
    def _skip(self) -> str:
        return "miss" if self.terms is Terms.UK else "skip"

    @property
    def _skipped(self) -> str:
        return "missed" if self.terms is Terms.UK else "skipped"

    def _name(self, worked: Worked) -> str:
        name = self.terms.abbreviation(worked.stitch)
        return f"{name} {worked.loop}" if worked.loop else name

    def _item(self, item: Item, colour: str | None) -> str:
        match item:
            case StitchRun():
                return self._run(item)
            case StitchGroup():
                return f"[{', '.join(self.items(item.items, colour))}] {times_words(item.times)}"
            case Crossing():
                return self._passed_over(item) or self._crossing(item, colour)
            case SeveralInOne():
                inside = ", ".join(self.items(item.items, colour))
                one = len(item.items) == 1 and isinstance(item.items[0], StitchRun)
                return f"{inside if one else f'({inside})'} {_INTO[item.into].format(chains=item.chains)}"

    def _run(self, run: StitchRun) -> str:
        worked, count = run.worked, run.count
        name = worked.stitch.abbreviation
        if name == "ch":
            return f"{self._name(worked)} {count}"
        if name == "sk":
            return f"{self._skip} next st" if count == 1 else f"{self._skip} {count} sts"
        if self._plainly(run) and (count == 1 or not name[0].isdigit()):
            return f"{count} {self._name(worked)}" if count > 1 else self._name(worked)
        target = self._target(run)
        return self._at(run, f"next {target}" if count == 1 else f"each of next {count} {target}s")

    def _at(self, run: StitchRun, where: str) -> str:
        """A stitch worked round or into what is at a place."""
        worked = run.worked
        post = worked.stitch.post
        name, preposition = self._name(worked), "round" if post else "in"
        if worked.free_loop:
            name, preposition = self.terms.abbreviation(worked.stitch), f"in {worked.free_loop} of"
        below = f" {worked.rows_below} rows below" if worked.rows_below > 1 else ""
        if not below and "strand" in where:
            below = " of the row below"
        marked = worked.surface and worked.stitch not in self.surface
        return f"{name} {preposition} {where}{below}{f' {ON_SURFACE}' if marked else ''}"

    def _passed_over(self, crossing: Crossing) -> str | None:
        """Two runs of one stitch, one past the other: ``skip 2 sts, ...``; None for any other crossing."""
        if len(crossing.items) != 2 or not all(isinstance(each, StitchRun) for each in crossing.items):
            return None
        first, second = (each for each in crossing.items if isinstance(each, StitchRun))
        skipped, taken = second.count, first.count
        whole = tuple(range(1, skipped + taken + 1))
        if first.worked != second.worked or second.passing is None or first.passing is not None:
            return None
        if (first.places, second.places) != (whole[skipped:], whole[:skipped]):
            return None
        what = self._target(first)
        if first.worked.uses != 1 or "strand" in f"{what}{self._target(second)}":
            return None
        preposition = "round" if what == "post" else "in"
        name = self._name(first.worked)
        skip = f"next {what}" if skipped == 1 else f"{skipped} {what}s"
        ahead = self._at(first, f"next {what}" if taken == 1 else f"each of the next {taken} {what}s")
        if skipped == 1:
            back = f"{name} {preposition} the {self._skipped} {what}"
        else:
            back = f"{name} {preposition} {'' if what == 'post' else 'each of '}the {skipped} {self._skipped}"
        passing = f"working {_PASSING[second.passing]} {'this' if taken == 1 else 'these'}"
        return ", ".join([f"{self._skip} {skip}", ahead, f"{passing} {back}", *_left(crossing, len(whole))])

    def _crossing(self, crossing: Crossing, colour: str | None) -> str:
        texts: list[str] = []
        skipped = _skipped_places(crossing)
        used = worked_so_far = 0
        for item in crossing.items:
            assert isinstance(item, StitchRun)
            if item.worked.colour != colour:
                texts += self.change(item.worked.colour)
            colour = item.worked.colour
            uses = item.worked.uses * item.count
            places = item.places or tuple(range(used + 1, used + uses + 1))
            if item.worked.stitch.abbreviation == "sk":
                places = tuple(skipped.pop(0) for _ in range(uses))
            texts.append(self._crossed(crossing, item, places, worked_so_far))
            used += uses
            worked_so_far += item.count
        texts += _left(crossing, used)
        over = "next st" if used == 1 else f"next {used} sts"
        return f"over {over} ({', '.join(texts)})"

    def _crossed(self, crossing: Crossing, run: StitchRun, places: tuple[int, ...], before: int) -> str:
        name = run.worked.stitch.abbreviation
        if name == "ch" or not places:
            return self._run(run)
        many = len(places) > 1
        if name == "sk":
            return f"{self._skip} {_ordinals(places)} st{'s' if many else ''}"
        where = f"{_ordinals(places)} st{'s' if many else ''}"
        if run.worked.stitch.post:
            what = self._target(run)
            strands = self.below.strands(crossing, run) if what == "raised strand" else None
            where = _strand_words(strands) if strands else f"the {what}{'s' if many else ''} of {where}"
        text = self._at(run, where)
        if run.passing is None:
            return text
        return f"working {_PASSING[run.passing]} {'this' if before == 1 else 'these'} {text}"


_INTO = {
    Into.STITCH: "in next st",
    Into.SAME: "in same st",
    Into.SPACE: "in next ch-{chains} sp",
}
_ROUND = {
    frozenset[bool](): "post",
    frozenset({False}): "post",
    frozenset({True}): "raised strand",
    frozenset({False, True}): "post or raised strand",
}
"""What a post stitch goes round, by whether it is a strand."""

_PASSING = {Passing.FRONT: "in front of", Passing.BEHIND: "behind"}


def times_words(count: int | str) -> str:
    """``once``, ``twice``, ``3 times``."""
    return (
        {1: "once", 2: "twice"}.get(count, f"{count} times") if isinstance(count, int) else f"{count} times"
    )


def _skipped_places(crossing: Crossing) -> list[int]:
    """The stitches of a crossing that nothing in it is worked into or round, or stands in place of."""
    taken: set[int] = set()
    used = 0
    for run in crossing.items:
        assert isinstance(run, StitchRun)
        uses = run.worked.uses * run.count
        if uses and run.worked.stitch.abbreviation != "sk":
            taken |= set(run.places or range(used + 1, used + uses + 1))
        used += uses
    return [place for place in range(1, used + 1) if place not in taken]


def _left(crossing: Crossing, over: int) -> list[str]:
    """How many of the stitches that a crossing is worked over are left unworked, if any are."""
    runs_in = [each for each in crossing.items if isinstance(each, StitchRun)]
    left = sum(each.count * each.worked.uses for each in runs_in if replaces_stitches(each.worked))
    other = "" if left == over else "other "
    sts = "st" if left == 1 else f"{left} sts"
    return [f"leaving the {other}{sts} of the row below unworked"] if left else []


def _strand_words(strands: Strands) -> str:
    if strands.number == 1:
        return "the raised strand"
    return f"the {_ordinals(strands.taken)} of the {strands.number} raised strands"


def _ordinals(places: Sequence[int]) -> str:
    """``4th``, ``4th and 5th``, ``1st to 3rd``; ``1st, 3rd and 4th`` where they do not follow one another."""
    if len(places) > 2 and len({after - before for before, after in pairwise(places)} - {1, -1}) == 0:
        return f"{ordinal(places[0])} to {ordinal(places[-1])}"
    return listed(map(ordinal, places))
