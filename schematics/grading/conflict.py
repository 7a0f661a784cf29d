"""Contradictions: the smallest set of rules that cannot all be kept, and what would release it.

The set is minimal: without any one of its rules there are counts that keep all others. It is found by
leaving out one rule after the other and keeping left out what is not needed.

References:
    J. W. Chinneck, Feasibility and Infeasibility in Optimization (2008), chapter 6: the deletion filter.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.wording import percent
from schematics.errors import SchematicsError
from schematics.grading.rules import Rule, Stretch
from schematics.grading.search import Search
from schematics.grading.targets import GradingError


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """A rule of a conflict, and what would release the conflict at this rule (empty: nothing we know of)."""

    rule: Rule
    release: str


class ConflictError(SchematicsError):
    """No counts keep all hard rules; ``clashes`` are a smallest set of them that cannot all be kept."""

    def __init__(self, head: str, clashes: Sequence[Clash]) -> None:
        self.clashes = tuple(clashes)
        rules = "".join(f"\n  - {each.rule.words}" for each in clashes)
        ways = "".join(f"\n  - {each}" for each in dict.fromkeys(clash.release for clash in clashes) if each)
        super().__init__(f"{head}{rules}" + (f"\nany one of these would release it:{ways}" if ways else ""))


def conflict(search: Search) -> ConflictError:
    """What stands in the way of a search that found nothing; sought first where no garment need be made."""
    for possible in (search.may_hold, search.feasible):
        for case in search.cases:
            own = [rule for rule in search.hard_rules() if rule.sizes == (case.index,)]
            if not possible(own):
                return _told(search, own)
        everything = search.hard_rules()
        if not possible(everything):
            return _told(search, everything)
    raise GradingError(
        f"{search.draft.head.path}:{search.cases[0].size.line}: no counts were found that pass all "
        "checks; give more by hand"
    )


def _told(search: Search, rules: Sequence[Rule]) -> ConflictError:
    core = minimal(search, rules)
    sizes = [search.cases[at].size for at in sorted({at for rule in core for at in rule.sizes})]
    names = f"size{'s' if len(sizes) > 1 else ''} {', '.join(repr(size.name) for size in sizes)}"
    clashes = [Clash(rule=rule, release=_release(search, rule, core)) for rule in core]
    return ConflictError(
        f"{search.draft.head.path}:{sizes[0].line}: no counts keep all rules. In {names} these "
        "cannot be kept together:",
        clashes,
    )


def minimal(search: Search, rules: Sequence[Rule]) -> list[Rule]:
    """A subset that cannot be kept, any rule less of which can; the rules fixed by hand go last."""
    core = sorted(rules, key=lambda rule: rule.count is not None)
    for size in (32, 8, 1):
        at = 0
        while at < len(core):
            fewer = core[:at] + core[at + size :]
            if search.feasible(fewer):
                at += size
            else:
                core = fewer
    return core


def _release(search: Search, rule: Rule, core: Sequence[Rule]) -> str:
    """What would make the core keepable at this rule, in words."""
    everything, least = (
        search.nearest(rule, [each for each in rules if each.key != rule.key])
        for rules in (search.hard_rules(), core)
    )
    nearest = everything or least
    if nearest is None:
        return ""
    if rule.count is not None:
        found = round(nearest.values[f"{rule.sizes[0]}/{rule.count}"])
        size = search.cases[rule.sizes[0]].size.name
        return f"another {rule.count} by hand in size {size!r}, such as {found}, or none"
    missing = nearest.objective
    return rule.cure.format(
        miss=search.cases[rule.sizes[0]].tape.at_least(missing),
        missing=math.ceil(missing - 1e-6),
        stretch=_stretch(rule.stretch, missing),
    )


def _stretch(stretch: Stretch | None, missing_cm: float) -> str:
    if stretch is None:
        return ""
    opens = stretch.girth_cm - missing_cm
    needed = (1 + stretch.fraction) * stretch.girth_cm / opens - 1 if opens > 0 else math.inf
    return percent(math.ceil(needed * 100 - 1e-6) / 100)
