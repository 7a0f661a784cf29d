"""A design worked out in all its sizes: counts, garment, wearer, findings. Pure, nothing is written."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.checks import check_size
from schematics.checks.finding import Beside, Case, Finding, Severity
from schematics.design.design import Design, Size
from schematics.errors import UsageError
from schematics.garment.arm_freedom import ArmFreedom, arm_freedoms
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from schematics.wearer.body import Wearer
from schematics.wearer.resolve import resolve_all

WORRIES = (Severity.STOP, Severity.MIND)
SEVERITIES = (*WORRIES, Severity.GOOD)
"""Worst first."""

_AT_ONCE = 50
"""Sizes that are checked together."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Result:
    """One size worked out and checked; ``freedom`` is None where reach and spread cannot be measured."""

    size: Size
    garment: Garment
    wearer: Wearer
    freedom: ArmFreedom | None
    findings: tuple[Finding, ...]

    def __repr__(self) -> str:
        return f"<Result of size {self.size.name!r}: {self.verdict.value}>"

    @property
    def verdict(self) -> Severity:
        """The worst severity among the findings; good when there are none."""
        return worst(finding.severity for finding in self.findings)


def worst(severities: Iterable[Severity]) -> Severity:
    """The worst of the severities; good when there are none."""
    return min(severities, key=SEVERITIES.index, default=Severity.GOOD)


def evaluate(design: Design) -> tuple[Result, ...]:
    """Every size of the design, in the spec's order.

    Raises:
        WearerError: wearers cannot be resolved; one line a size, with file and line.
    """
    wearers = resolve_all([(each.name, each.line, each.wearer) for each in design.sizes], design.path)
    together = zip(design.sizes, wearers, strict=True)
    return tuple(itertools.chain.from_iterable(iter(lambda: _checked(design, together), ())))


def _checked(design: Design, sizes: Iterator[tuple[Size, Wearer]]) -> tuple[Result, ...]:
    """The next of the sizes."""
    beside = Beside()
    unchecked = _unchecked(design, tuple(itertools.islice(sizes, _AT_ONCE)))
    cases = [case_of(design, each, beside) for each in unchecked]
    return tuple(
        replace(result, findings=check_size(case)) for result, case in zip(unchecked, cases, strict=True)
    )


def _unchecked(design: Design, sizes: Sequence[tuple[Size, Wearer]]) -> list[Result]:
    construction = CONSTRUCTIONS[design.construction]
    garments = [_in_colours(construction.build(size, design.parts), design) for size, _ in sizes]
    return [
        Result(size=size, garment=garment, wearer=wearer, freedom=freedom, findings=())
        for (size, wearer), garment, freedom in zip(sizes, garments, arm_freedoms(garments), strict=True)
    ]


def _in_colours(garment: Garment, design: Design) -> Garment:
    """The garment, its pieces in the colours of their parts; a chart of several colours has its own."""
    shades = design.yarn.shades
    if not (design.yarn_use.colours or shades or design.yarn.colour):
        return garment
    pieces = []
    for piece in garment.pieces:
        several = piece.fabric.chart is not None and len(piece.fabric.chart.colours) > 1
        colour, number = (piece.colour, piece.hatching) if several else design.colour_of(piece.name)
        pieces.append(replace(piece, shades=shades, colour=colour, hatching=number))
    return replace(garment, pieces=tuple(pieces))


def case_of(design: Design, result: Result, beside: Beside | None = None) -> Case:
    """What the checks look at, with the others ``beside`` it."""
    return Case(
        design=design,
        parts=design.parts,
        size=result.size,
        garment=result.garment,
        freedom=result.freedom,
        wearer=result.wearer,
        limits=design.limits,
        beside=beside,
    )


def chosen_sizes(design: Design, names: Sequence[str] | None) -> tuple[Size, ...]:
    """The sizes of those names in the spec's order; all of them when ``names`` is None.

    Raises:
        UsageError: a name is no size of the design; the message lists those there are.
    """
    if names is None:
        return design.sizes
    offered = [size.name for size in design.sizes]
    unknown = [name for name in dict.fromkeys(names) if name not in offered]
    if unknown or not names:
        quoted = " and ".join(f"'{name}'" for name in unknown) or "nothing"
        raise UsageError(f"{design.path}: no size {quoted}; the sizes are {', '.join(offered)}")
    return tuple(size for size in design.sizes if size.name in names)


def choose(design: Design, results: Sequence[Result], names: Sequence[str] | None) -> tuple[Result, ...]:
    """The results of those sizes, as `chosen_sizes` has them."""
    chosen = {size.name for size in chosen_sizes(design, names)}
    return tuple(result for result in results if result.size.name in chosen)
