"""What may be together in a bracket of a row: crossings, several stitches in one, changes of colour."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.crochet.charts.chart import (
    Crossing,
    Into,
    Item,
    SeveralInOne,
    StitchGroup,
    StitchRun,
    runs,
)
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.charts.text_cursor import RowTextError
from schematics.crochet.stitches import StitchBook


def is_crossing(items: Iterable[Item]) -> bool:
    """Whether one of the stitches says which it is worked into or round."""
    return any(isinstance(item, StitchRun) and item.places for item in items)


def crossing(items: tuple[Item, ...], column: int) -> Crossing:
    """The crossing of a bracket at that column.

    Raises:
        RowTextError: its stitches cannot be worked in that order.
    """
    singles: list[StitchRun] = []
    for item in items:
        if not isinstance(item, StitchRun):
            raise RowTextError(column, "a crossing holds stitches only; take the bracket inside it apart")
        singles.append(item)
    size = sum(run.worked.uses * run.count for run in singles)
    furthest = 0
    for run in singles:
        for place in run.places:
            if not 1 <= place <= size:
                sentence = (
                    f"the crossing is over {count_words(size)}, so expected {_up_to(size)}, got {place}"
                )
                raise RowTextError(run.column, sentence)
            if place < furthest and run.passing is None:
                sentence = "it goes back past stitches already worked; say 'in front' or 'behind' after it"
                raise RowTextError(run.column, sentence)
            furthest = max(furthest, place)
    aimed = [place for run in singles for place in run.places]
    if twice := [place for number, place in enumerate(aimed) if place in aimed[:number]]:
        sentence = f"stitch {twice[0]} of the crossing is taken twice; expected each once"
        raise RowTextError(column, sentence)
    _check_tops(singles, column)
    return Crossing(items=items, column=column)


def _up_to(size: int) -> str:
    return "1" if size == 1 else f"1 to {size}"


def _check_tops(singles: list[StitchRun], column: int) -> None:
    """Each top is worked into once: one that is named leaves the others their own places."""
    passed = 0
    into: list[int] = []
    skipped: set[int] = set()
    for run in singles:
        for number in range(run.count):
            named = run.places and not run.worked.stitch.post and run.worked.uses
            own = range(passed + 1, passed + run.worked.uses + 1)
            if run.worked.stitch.abbreviation == "sk":
                skipped.update(own)
            else:
                into += [run.places[number]] if named else own
            passed += run.worked.uses
    back = [(run, place) for run in singles for place in run.places if place in skipped]
    if back and into and passed > max(into):
        run, place = back[0]
        sentence = (
            f"stitch {place} of the crossing is skipped, which counts it as used, and worked into here, so "
            f"that stitch {passed} is left over; leave the skip out and say where each stitch goes, as in "
            "'(dc in st 2, dc in st 1 behind)'"
        )
        raise RowTextError(run.column, sentence)
    if twice := [place for number, place in enumerate(into) if place in into[:number]]:
        missed = min(set(range(1, passed + 1)) - set(into))
        sentence = (
            f"stitch {twice[0]} of the crossing is worked into twice and stitch {missed} not at all; "
            "say 'in st' and its number after each"
        )
        raise RowTextError(column, sentence)


def several_in_one(
    items: tuple[Item, ...], into: Into, chains: int, column: int, stitches: StitchBook
) -> SeveralInOne:
    """The items, all worked into one stitch or space.

    Raises:
        RowTextError: one of them cannot be, or nothing holds them there.
    """
    for run in _plain_runs(items, column):
        worked = run.worked
        if worked.surface or worked.stitch.post or worked.uses > 1 or worked.stitch.abbreviation == "sk":
            what = f"{'surface ' if worked.surface else ''}{stitches.name(worked.stitch)}"
            raise RowTextError(run.column, f"{what} is not worked into one stitch or space")
    if not any(run.worked.uses for run in runs(items)):
        sentence = f"nothing holds the chains {into.value!r}; put a stitch with them, or leave it out"
        raise RowTextError(column, sentence)
    return SeveralInOne(items=items, into=into, chains=chains, column=column)


def _plain_runs(items: Iterable[Item], column: int) -> Iterable[StitchRun]:
    for item in items:
        if isinstance(item, StitchRun):
            yield item
        elif isinstance(item, StitchGroup):
            yield from _plain_runs(item.items, column)
        else:
            sentence = "what is worked into one stitch or space holds no crossing and no other such bracket"
            raise RowTextError(column, sentence)


def stitches_worked(items: Iterable[Item]) -> int:
    """How many stitches the items are, whatever they use or make."""
    total = 0
    for item in items:
        match item:
            case StitchRun():
                total += item.count
            case StitchGroup():
                total += item.times * stitches_worked(item.items)
            case _:
                total += stitches_worked(item.items)
    return total
