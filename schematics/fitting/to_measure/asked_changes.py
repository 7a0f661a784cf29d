"""Changes of counts as a maker says them: ``hem +2``, ``body rows 30``, or a suggestion by its number."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence, Set
from contextlib import suppress
from dataclasses import dataclass, replace

from pydantic import ValidationError

from schematics.design.design import Design, Parts, Size
from schematics.errors import UsageError
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.levers import with_counts
from schematics.grading.draft import block_of
from schematics.reading.problems import hint, listed, nearest, show_value
from schematics.reading.sentences import explained
from schematics.reading.spec_block import LARGEST_COUNT

_NUMBER = re.compile(r"\s*([0-9]{1,3})\s*", re.ASCII)
_CHANGE = re.compile(r"\s*([^\d=+\-−]*[^\d=+\-−\s])\s*=?\s*([+\-−]?)\s*([0-9]{1,6})\s*", re.ASCII)
_WORD = re.compile(r"[^\W\d_]+")
_SIGNED = re.compile(r"([+\-−]?)\s*([0-9]{1,6})", re.ASCII)
_LONGEST = 80
_EXAMPLE = "'hem +2', 'body rows 30', 'none' or the number of a suggestion"

_BANDS = {
    "neck band": "neck_band.stitches",
    "arm band": "arm_bands.stitches",
    "arm bands": "arm_bands.stitches",
}
"""What is changed of a band is how deep it is."""

NONE_ASKED = "none"
"""Asked for in the place of changes: the size as the pattern has it."""


_ROWS, _MOST_ROWS = "body.rows", 6
"""So many rows more may have to be asked for with other increases."""

_NOTHING_NEAR = "; so many more or fewer cannot be worked either while all else stays as it is"


def asks_for_none(texts: Sequence[str]) -> bool:
    """Whether the size is wanted as the pattern has it."""
    return any(text.strip().casefold() == NONE_ASKED for text in texts)


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedChange:
    """A count to change: by ``number`` where it is ``relative``, else to it; ``text`` is what was typed."""

    key: str
    number: int
    relative: bool
    text: str


def read_changes(texts: Sequence[str], size: Size) -> tuple[tuple[int, ...], tuple[AskedChange, ...]]:
    """The numbers of suggestions and the counts that ``--change`` names.

    Args:
        texts: what was typed.
        size: a size of the design; all have the same counts.

    Raises:
        UsageError: a text is no change or names no count, or a count is named twice; a line for each.
    """
    if asks_for_none(texts):
        if len(texts) > 1:
            raise UsageError(f"--change: {NONE_ASKED!r} leaves the size as it is; ask for nothing besides")
        return (), ()
    numbers: list[int] = []
    changes: list[AskedChange] = []
    problems: list[str] = []
    for text in texts:
        if len(text) <= _LONGEST and (match := _NUMBER.fullmatch(text)):
            numbers.append(int(match[1]))
            continue
        try:
            changes.append(_change(text, count_names(size)))
        except UsageError as error:
            problems += error.problems
    twice = [key for key, times in Counter(each.key for each in changes).items() if times > 1]
    problems += [
        f"--change: {plain_name(key)!r} is changed twice; say once what it is to be" for key in twice
    ]
    if problems:
        raise UsageError(*problems)
    return tuple(dict.fromkeys(numbers)), tuple(changes)


def plain_name(key: str) -> str:
    """A count's key in plain words: ``arms from front``."""
    return re.sub(r"[._]", " ", key)


def count_names(size: Size) -> dict[str, str]:
    """The keys of a size's whole counts by every name they go by; one word where no other ends in it.

    What a maker calls otherwise has her words for its key, see `in_counts`.
    """
    keys = [key for key, value in counts_of(size).items() if type(value) is int]
    ends = Counter(key.partition(".")[2] for key in keys)
    names = {plain_name(key): key for key in keys}
    names |= {plain_name(end): key for key in keys if ends[end := key.partition(".")[2]] == 1}
    return {word: word for word in size.body.in_words} | names | _BANDS


def in_counts(design: Design, size: Size, changes: Sequence[AskedChange]) -> tuple[AskedChange, ...]:
    """The changes by keys of counts alone, what a maker calls otherwise among them.

    Raises:
        UsageError: so much more or less of it cannot be had; a line for each.
    """
    words, counted, problems = size.body.in_words, [], []
    for change in changes:
        if (meant := words.get(change.key)) is None:
            counted.append(change)
            continue
        more = change.number if change.relative else change.number - meant.now
        if more % meant.each == 0:
            counted.append(replace(change, key=meant.key, number=more // meant.each, relative=True))
            continue
        below = more // meant.each
        near = [
            f"{f'{change.key} {by:+d}' if change.relative else f'{change.key} {meant.now + by}'!r}{also}"
            for steps in (below, below + 1)
            if (by := steps * meant.each) and (also := _also(design, size, meant.key, steps)) is not None
        ]
        problems.append(
            f"--change: with {change.text.strip()!r} nothing can be worked: {meant.why}, {meant.each} in all"
            f"{f'; did you mean {listed(near)}?' if near else _NOTHING_NEAR}"
        )
    if problems:
        raise UsageError(*problems)
    return tuple(counted)


def _also(design: Design, size: Size, key: str, more: int) -> str | None:
    """What has to be asked for with so much more of a count: nothing, or body rows; None if none will do."""
    asked = AskedChange(key=key, number=more, relative=True, text="")
    for rows in range(_MOST_ROWS + 1):
        with_rows = (asked, AskedChange(key=_ROWS, number=rows, relative=True, text="")) if rows else (asked,)
        with suppress(UsageError):
            with_changes(design, size, with_rows)
            return f" with {f'{plain_name(_ROWS)} +{rows}'!r}" if rows else ""
    return None


def _change(text: str, names: Mapping[str, str]) -> AskedChange:
    match = _CHANGE.fullmatch(text) if len(text) <= _LONGEST else None
    if match is None:
        meant = _meant(text[:_LONGEST], names)
        also = f"; did you mean {meant}?" if meant else ""
        raise UsageError(f"--change: expected {_EXAMPLE}, got {show_value(text)}{also}")
    name = " ".join(plain_name(match[1].casefold()).split())
    if name not in names:
        meant = _meant(text, names)
        plain_names = [plain_name(key) for key in dict.fromkeys(names.values())]
        there = f"did you mean {meant}?" if meant else hint(name, plain_names)
        raise UsageError(f"--change: there is no count {show_value(match[1])}; {there}")
    sign = {"": 1, "+": 1}.get(match[2], -1)
    return AskedChange(key=names[name], number=sign * int(match[3]), relative=bool(match[2]), text=text)


def _meant(text: str, names: Mapping[str, str]) -> str:
    """What could be typed in place of a text that is no change, the nearest first, or nothing.

    Near are counts whose names have all its words, else those that are spelt alike.
    """
    words = _WORD.findall(plain_name(text.casefold()))
    having = [key for key in names.values() if words and {*words} <= {*plain_name(key).split()}]
    keys = dict.fromkeys(having or [names[each] for each in nearest(" ".join(words), names)])
    shortest = {
        names[each]: each for each in sorted({*names} - {*_BANDS}, key=lambda name: (-len(name), name))
    }
    number = _SIGNED.search(text)
    by = f"{number[1].replace('−', '-')}{number[2]}" if number else "+2"
    return listed([repr(f"{shortest[key]} {by}") for key in keys])


def with_changes(design: Design, size: Size, changes: Sequence[AskedChange]) -> Size:
    """The size with those counts; what has to follow one, as the panel does the body, follows.

    Raises:
        UsageError: the counts cannot be worked together.
    """
    counts = counts_of(size)
    wanted = {each.key: counts[each.key] + each.number if each.relative else each.number for each in changes}
    for key, count in wanted.items():
        least = _least(size, key)
        if not least <= count <= LARGEST_COUNT:
            raise UsageError(
                f"--change: {plain_name(key)} would be {count}; expected {least} to {LARGEST_COUNT}"
            )
    changed = with_counts(_step_by_step(design, size, wanted), **dict(_by_name(wanted)))
    if changed is None:
        quoted = " and ".join(repr(each.text) for each in changes)
        raise UsageError(f"--change: nothing can be worked with {quoted}{_clash(size, wanted)}")
    return changed


def _least(size: Size, key: str) -> int:
    """The least that a count may be, whatever the others are."""
    block, _, name = key.partition(".")
    model = {"body": type(size.body), "arms": type(size.arms)}.get(block)
    bounds = [] if model is None else model.model_fields[name].metadata
    return next((int(bound.ge) for bound in bounds if hasattr(bound, "ge")), 1)


def _step_by_step(design: Design, size: Size, wanted: Mapping[str, int]) -> Size:
    """The size with one wanted count after the other, in the order in which they can be worked."""
    left = dict(wanted)
    while left:
        tried = ((key, _with_followers(design, size, key, count)) for key, count in left.items())
        key, changed = next((each for each in tried if each[1] is not None), (None, None))
        if key is None or changed is None:
            break
        size = changed
        del left[key]
    return size


def _clash(size: Size, wanted: Mapping[str, int]) -> str:
    """What the counts of a body or its arms ask of each other, as the end of a sentence."""
    counts = {**counts_of(size), **wanted}
    for name, model in (("body", type(size.body)), ("arms", type(size.arms))):
        block = block_of(counts, name)
        try:
            model.model_validate(block)
        except ValidationError as error:
            first = explained(model, block, error)[0]
            of = "".join(f"{plain_name(str(key))}: " for key in first.get("loc", ()))
            return f": {of}{first['type']}"
    return "; ask for a smaller change"


def _with_followers(design: Design, size: Size, key: str, count: int) -> Size | None:
    """The size with that count, and what the lever of the count moves with it."""
    difference = count - counts_of(size)[key]
    construction = CONSTRUCTIONS[design.construction]
    parts: Parts = design.parts
    for lever in construction.levers:
        if lever.key != construction.counts.get(key) or not difference:
            continue
        ones = ((by, lever.moved(size, by, parts)) for by in (1, -1))
        step = next((by * (counts_of(one)[key] - counts_of(size)[key]) for by, one in ones if one), 0)
        if step and difference % step == 0 and (moved := lever.moved(size, difference // step, parts)):
            return moved
    return with_counts(size, **dict(_by_name({key: count})))


def _by_name(counts: Mapping[str, int]) -> Iterable[tuple[str, int]]:
    """Counts by the names of `with_counts`."""
    for key, count in counts.items():
        between = "__" if key.startswith(("body.", "arms.")) else "_"
        name = key.replace(".", between)
        yield name.replace("arm_bands_", "arm_band_"), count


def differing_counts(before: Size, after: Size, absolute: Set[str] = frozenset()) -> list[AskedChange]:
    """The counts that differ, as they are asked for: those of ``absolute`` as what they are to be.

    Nothing where a count is no longer there, which cannot be asked for.
    """
    new = counts_of(after)
    if any(type(old) is int and new[key] is None for key, old in counts_of(before).items()):
        return []
    changed = {
        key: (new[key], new[key] - old)
        for key, old in counts_of(before).items()
        if type(old) is int and new[key] != old
    }
    return [
        AskedChange(key=key, number=count, relative=False, text=f"{plain_name(key)} {count}")
        if key in absolute
        else AskedChange(key=key, number=by, relative=True, text=f"{plain_name(key)} {by:+d}")
        for key, (count, by) in changed.items()
    ]
