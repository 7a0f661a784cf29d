"""Grading as the rest of the program sees it: a draft in, a design with all counts out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from schematics.checks.tape import Tape
from schematics.design.design import Design
from schematics.grading.best import InfeasibleError, best
from schematics.grading.candidates import TooManyError
from schematics.grading.case import SizeCase
from schematics.grading.conflict import conflict, no_shared_interval
from schematics.grading.draft import Draft, DraftSize, block_of
from schematics.grading.search import Search, Solution
from schematics.grading.targets import GradingError, targets
from schematics.wearer.resolve import resolve_all


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """A draft with its counts found, and what found them."""

    draft: Draft
    design: Design
    solution: Solution
    search: Search


def grade(draft: Draft) -> Graded:
    """Find the counts a draft leaves out.

    Raises:
        GradingError: the spec does not say enough.
        ConflictError: no counts keep everything they must.
    """
    search = search_of(draft)
    solution = Solution(counts=tuple(dict(size.given) for size in draft.sizes), cost_cm=0.0, bound_cm=0.0)
    try:
        solution = solution if draft.complete else best(search)
    except InfeasibleError as infeasible:
        if infeasible.index is None:
            raise no_shared_interval(search, str(draft.head.path)) from None
        raise conflict(search, infeasible.index, str(draft.head.path)) from None
    except TooManyError:
        raise GradingError(
            f"{draft.head.path}:{draft.sizes[0].line}: there are too many counts to choose from; "
            "state more lengths in the grading block, give them more weight, or give some counts by hand"
        ) from None
    design = draft.design(solution.counts)
    sizes = [replace(size, meant=case.meant) for size, case in zip(design.sizes, search.cases, strict=True)]
    return Graded(draft=draft, design=replace(design, sizes=tuple(sizes)), solution=solution, search=search)


def search_of(draft: Draft) -> Search:
    """The problem a draft poses.

    Raises:
        GradingError: an intent cannot be turned into a length.
        WearerError: wearers cannot be resolved.
    """
    head, construction = draft.head, draft.construction
    wearers = resolve_all([(each.name, each.line, each.wearer) for each in draft.sizes], head.path)
    cases = [
        SizeCase(
            index=index,
            size=size,
            formulas=construction.formulas(head.parts, block_of({**size.settings, **size.given}, "body")),
            construction=construction,
            parts=head.parts,
            wearer=wearer,
            limits=head.limits,
            tape=Tape(head.unit),
            settings=block_of(size.settings, "body"),
            shaping=_shaping(draft, size),
            wishes=draft.wishes,
        )
        for index, (size, wearer) in enumerate(zip(draft.sizes, wearers, strict=True))
    ]
    meant = targets(draft, cases)
    return Search(
        cases=tuple(replace(case, targets_cm=lengths) for case, lengths in zip(cases, meant, strict=True))
    )


def _shaping(draft: Draft, size: DraftSize) -> tuple[str, ...]:
    """The shaping counts that a size has, by hand or to be found."""
    has = (*size.given, *draft.missing(size))
    return tuple(count for count in draft.construction.shaping if count in has)
