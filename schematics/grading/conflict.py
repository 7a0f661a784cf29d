"""Contradictions: the smallest set of things a size's counts must keep and cannot, and what would release it.

The set is minimal: without any one of them there are counts that keep all others. It is found by leaving out
one after the other and keeping left out what is not needed.

References:
    J. W. Chinneck, Feasibility and Infeasibility in Optimization (2008), chapter 6: the deletion filter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.wording import every_row
from schematics.errors import SchematicsError
from schematics.grading.best import InfeasibleError, SearchMemo, best, feasible
from schematics.grading.candidates import TooManyError
from schematics.grading.case import Ask
from schematics.grading.release import cure_words
from schematics.grading.search import Search
from schematics.units import Grain, format_cm

_MOST_TRIED = 20_000_000
"""Choices looked at to narrow a contradiction down; what is not left out by then is named."""

_MOST_FOR_A_CURE = 2_000_000
"""Choices looked at to find one cure; the best found by then is given, or only that other counts would do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Something that is asked, and what would release the conflict there (empty: nothing we know of)."""

    ask: Ask
    release: str


class ConflictError(SchematicsError):
    """No counts of a size keep all that is asked; ``clashes`` cannot all be kept.

    Without any one of them the others can, unless narrowing them down ended before each was tried.
    """

    def __init__(self, head: str, clashes: Sequence[Clash]) -> None:
        self.clashes = tuple(clashes)
        asks = "".join(f"\n  - {each.ask.words}" for each in clashes)
        cures = "".join(f"\n  - {each}" for each in dict.fromkeys(clash.release for clash in clashes) if each)
        super().__init__(f"{head}{asks}" + (f"\nany one of these would release it:{cures}" if cures else ""))


def conflict(search: Search, index: int, path: str) -> ConflictError:
    """What stands in the way of the counts of one size, which has none."""
    case, asks = search.cases[index], minimal(search, index)
    if not asks:
        return _too_far_apart(search, index, path)
    return ConflictError(
        f"{path}:{case.size.line}: no counts keep all rules. In size {case.size.name!r} these cannot be kept "
        "together:",
        [Clash(ask=ask, release=_release(search, index, ask)) for ask in asks],
    )


def no_shared_interval(search: Search, path: str) -> ConflictError:
    """What to write where each size has counts, but not all with increases on the same rows."""
    alone, memo = [Search(cases=(case,), left_out=search.left_out) for case in search.cases], SearchMemo()
    left = {
        every: [at for at, each in enumerate(alone) if not feasible(each, every, memo)]
        for every in search.intervals
    }
    every = min(search.intervals, key=lambda each: len(left[each]))
    others = [search.cases[at].size for at in left[every]]
    names = ", ".join(size.name for size in others)
    return ConflictError(
        f"{path}:{others[0].line}: increases on the same rows do not serve all sizes: in row 2 "
        f"and {every_row(every)} they serve all but {names}. Give increase_every in the body of "
        f"{'that size' if len(others) == 1 else 'those sizes'}, or write increases: exact in the "
        "grading block",
        [],
    )


def minimal(search: Search, index: int) -> list[Ask]:
    """Things asked of a size that cannot be kept, any one less of which can; counts by hand go last."""
    asks = sorted(search.asks[index], key=lambda ask: bool(ask.count))
    needed = _needed(search, index, [ask.key for ask in asks], search.left_out)
    return [ask for ask in asks if ask.key in needed]


def _needed(search: Search, index: int, keys: Sequence[str], out: frozenset[tuple[int, str]]) -> list[str]:
    """Those without any one of which a size has counts, of asks or lengths with which it has none.

    Several are left out at once where that can be: then each of them could be after the other.
    """
    memo, blocks = SearchMemo(most=_MOST_TRIED), [list(keys)]
    needed = []
    while blocks:
        block = blocks.pop()
        without = out | {(index, key) for key in block}
        if not feasible(Search(cases=(search.cases[index],), left_out=without), memo=memo):
            out = without
        elif len(block) == 1:
            needed += block
        else:
            half = len(block) // 2
            blocks += [block[half:], block[:half]]
    return needed


def _too_far_apart(search: Search, index: int, path: str) -> ConflictError:
    """The lengths meant for a size that lie so far apart that no counts are looked for, whatever is asked."""
    case = search.cases[index]
    out = search.left_out | {(index, ask.key) for ask in search.asks[index]}
    lengths = "".join(
        f"\n  - {key}, meant {format_cm(case.targets_cm[key], Grain.USUAL)}"
        for key in _needed(search, index, tuple(case.targets_cm), out)
    )
    return ConflictError(
        f"{path}:{case.size.line}: in size {case.size.name!r} these lengths lie too far apart, no counts "
        f"come near enough to all of them:{lengths}",
        [],
    )


def _release(search: Search, index: int, ask: Ask) -> str:
    """What would let the counts keep everything else, in words; empty where nothing is known to."""
    case = search.cases[index]
    without = Search(cases=(case,), left_out=search.left_out | {(index, ask.key)})
    another = f"another {ask.count} by hand in size {case.size.name!r}"
    try:
        counts = best(without, SearchMemo(most=_MOST_FOR_A_CURE)).counts[0]
    except InfeasibleError:
        return ""
    except TooManyError:
        return f"{another}, or none" if ask.count else ""
    return f"{another}, such as {counts[ask.count]}, or none" if ask.count else cure_words(case, ask, counts)
