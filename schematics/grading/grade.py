"""Grading as the rest of the program sees it: a draft in, a design with all counts out."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.design import Design
from schematics.grading.conflict import conflict
from schematics.grading.draft import Draft
from schematics.grading.found import Found
from schematics.grading.program import SolverError
from schematics.grading.search import Search


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """A draft with its counts found, and what found them."""

    draft: Draft
    design: Design
    found: Found
    search: Search


def grade(draft: Draft) -> Graded:
    """Find the counts a draft leaves out.

    Raises:
        GradingError: the spec does not say enough.
        SolverError: neither counts nor a conflict were found in the time given; told with file and line.
        ConflictError: no counts keep all hard rules.
    """
    search = Search.of(draft)
    try:
        found = search.given() if draft.complete else search.run()
        if found is None:
            raise conflict(search)
    except SolverError as error:
        line = draft.wishes.line if draft.wishes else search.cases[0].size.line
        raise SolverError(f"{draft.head.path}:{line}: {error}") from error
    return Graded(draft=draft, design=draft.design(found.counts), found=found, search=search)


def graded_design(draft: Draft) -> Design:
    """The design of a draft with its counts found; raises as `grade` does."""
    return grade(draft).design
