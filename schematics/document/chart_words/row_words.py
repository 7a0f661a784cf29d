"""One row of a chart in all sizes: ``sc, [2 FPdc, 2 hdc] to last st, hdc``."""

from __future__ import annotations

from collections.abc import Collection

from schematics.crochet.charts.chart import ChartRow, RowPart, StitchRun, runs, tally
from schematics.crochet.stitches import Stitch
from schematics.crochet.terms import Terms
from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none
from schematics.document.chart_words.row_below import RowBelow
from schematics.document.chart_words.stitch_words import StitchWords, times_words


def row_in_words(
    row: ChartRow, times: Sized, terms: Terms, below: RowBelow, surface: Collection[Stitch] = ()
) -> str:
    """What is worked in the row.

    Args:
        row: the row.
        times: how often what is worked across is worked, in each size.
        terms: whose stitch names to use.
        below: what its stitches find there.
        surface: the stitches that are known to lie on the surface wherever they are worked.
    """
    return _RowWriter(row, times, StitchWords(terms, below, surface)).text()


class _RowWriter:
    """Writes the parts of a row one after another, with the colour in hand."""

    def __init__(self, row: ChartRow, times: Sized, words: StitchWords) -> None:
        self._row, self._times, self._words = row, times, words
        self._colour: str | None = None
        self._texts: list[str] = []

    def text(self) -> str:
        """The row."""
        across = [part for part in self._row.parts if part.across]
        met = not_none(self._times)
        for place, part in enumerate(self._row.parts):
            after = tally(item for later in self._row.parts[place + 1 :] for item in later.items).uses
            if not part.across or (met and set(met) == {1} and len(met) == len(self._times)):
                self._once(part)
            elif len(across) == 1 and 0 not in met:
                self._to_last(part, after)
            else:
                self._so_often(part)
        return ", ".join(self._texts)

    def _once(self, part: RowPart) -> None:
        self._texts += self._words.items(part.items, self._colour)
        self._colour = _last_colour(part)

    def _to_last(self, part: RowPart, after: int) -> None:
        """The one part worked across: over and over, up to the stitches named after it."""
        end = "to end" if after == 0 else f"to last {'st' if after == 1 else f'{after} sts'}"
        first = self._begun(part)
        alone = _alone(part)
        if alone and (each := self._words.in_each(alone)):
            self._texts.append(f"{each} {end}")
            return
        inside = ", ".join(self._words.items(part.items, first))
        self._texts.append(f"[{inside}] {end}")

    def _so_often(self, part: RowPart) -> None:
        """One of several parts worked across: its number of times is written."""
        if set(self._times) == {0}:
            return
        first = self._begun(part)
        alone = _alone(part)
        if alone and (counted := self._words.counted(alone, in_sizes(self._times))):
            self._texts.append(counted)
            return
        inside = ", ".join(self._words.items(part.items, first))
        same = not_none(self._times)[0] if len(set(self._times)) == 1 and not_none(self._times) else None
        self._texts.append(f"[{inside}] {times_words(in_sizes(self._times) if same is None else same)}")

    def _begun(self, part: RowPart) -> str | None:
        """The colour that what repeats begins in: named before it if it is the only one, else inside."""
        shades = dict.fromkeys(run.worked.colour for run in runs(part.items))
        before, self._colour = self._colour, _last_colour(part)
        if len(shades) > 1:
            return None
        (only,) = shades
        if only != before:
            self._texts += self._words.change(only)
        return only


def _alone(part: RowPart) -> StitchRun | None:
    """The stitch of a part that is one stitch, worked once."""
    (first, *others) = part.items
    return first if not others and isinstance(first, StitchRun) and first.count == 1 else None


def _last_colour(part: RowPart) -> str:
    return [run.worked.colour for run in runs(part.items)][-1]
