"""The public functions for makers: a design made to measure, and what mends a finished poncho."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Unpack

from schematics.design.design import Design
from schematics.errors import Problems, UsageError
from schematics.library.arguments import Measurements, as_argument, design_of, gauge_of, given_of, several_of

if TYPE_CHECKING:
    from schematics.fitting.rescue.rescue import Rescue
    from schematics.fitting.to_measure.made_to_measure import MadeToMeasure


def make_to_measure(
    design: Design,
    *,
    age: float | None = None,
    gauge: str | Sequence[str] = (),
    size: str | None = None,
    changes: str | Sequence[str] = (),
    graded: bool = False,
    have: str | Sequence[str] = (),
    name: str = "",
    **measurements: Unpack[Measurements],
) -> MadeToMeasure:
    """A design of one size for one person, judged by all checks; nothing is written.

    Args:
        design: the pattern.
        age: in years; what is not measured is then read from the age table.
        gauge: the maker's own swatches, as of `schematics.fit`.
        size: the size to start from; the one that fits best when None.
        changes: counts to change, such as ``hem +2`` or ``body rows 30``, or a suggestion of `schematics.fit`
            by its number as text; ``none`` for the size as it is. Without any the smallest changes that make
            it right are made, if needed.
        graded: find all counts anew for this body, as near the size's finished lengths as it lets them.
        have: yarn at hand, such as ``450 g``.
        name: whom it is for, as the title of the pattern says.
        measurements: by name, such as ``head_girth="52 cm"``; see `Measurements`.

    Returns:
        What was made: ``design`` can be drawn, written and built as any other, ``result`` has the verdict.

    Raises:
        NotWearableError: something stops what would come out; the text is a sentence that says what, and
            ``instead`` has the nearest changes that can be worn.
        SchematicsError: an argument cannot be used; ``problems`` has a text for each thing wrong.

    >>> import schematics
    >>> design = schematics.read("specs/tidepool.yaml")
    >>> made = make_to_measure(design, head_girth="52 cm", height="118 cm", age=6, changes="hem +2")
    >>> [change.words for change in made.changes]
    ['2 more stitches at the hem (168 in all)']
    """
    from schematics.analysis.yarn.stash import read_stash
    from schematics.fitting.gauge_text import read_gauge
    from schematics.fitting.measured import given_wearer
    from schematics.fitting.to_measure.made_to_measure import made_to_measure, refuse
    from schematics.fitting.to_measure.order import Order, UnworkableError
    from schematics.wearer.body import WearerSpec

    design = design_of(design)
    given, swatches = given_of(age, measurements), gauge_of(gauge)
    asked = tuple(several_of(changes, "changes of counts, such as ['hem +2']"))
    amounts = several_of(have, "amounts of yarn, such as ['450 g']")
    order = Order(wearer=WearerSpec(), size=size, changes=asked, graded=graded, name=name)
    problems = Problems()
    with problems.noted():
        order = replace(order, wearer=given_wearer(given, design.unit))
    with problems.noted():
        order = replace(order, parts=read_gauge(swatches, design).parts if swatches else None)
    with problems.noted():
        order = replace(order, stash_g=read_stash(amounts, design))
    with problems.noted():
        refuse(design, order)
    if problems:
        raise UsageError(*map(_as_argument, problems))
    try:
        return made_to_measure(design, order)
    except UnworkableError as error:
        offered = [f"changes={[*error.instead]} can be worn instead"] if error.instead else []
        raise UsageError(*map(_as_argument, error.problems), *offered) from None
    except UsageError as error:
        raise UsageError(*map(_as_argument, error.problems)) from None


def rescue(
    design: Design,
    size: str,
    measured: str | Sequence[str],
    *,
    age: float | None = None,
    **measurements: Unpack[Measurements],
) -> Rescue:
    """What mends a finished poncho that came out otherwise, or whom it fits as it is.

    Args:
        design: the pattern.
        size: the name of the size that was worked.
        measured: finished measurements of the pattern with their lengths, such as ``body hem edge 140``;
            a bare number is in the design's unit.
        age: in years; what is not measured is then read from the age table.
        measurements: of the wearer, by name, such as ``head_girth="52 cm"``; see `Measurements`. Without any,
            and without an age, it is held against the one the size is meant for.

    Returns:
        ``wearable`` says whether it can be worn as it is, ``repairs`` what mends it, ``fits`` whom it fits.

    Raises:
        SchematicsError: an argument cannot be used; ``problems`` has a text for each thing wrong.

    >>> import schematics
    >>> design = schematics.read("specs/tidepool.yaml")
    >>> found = rescue(design, "6", "neck band length 38.5", head_girth="52 cm", height="118 cm", age=6)
    >>> found.wearable, [sorted(repair.pieces) for repair in found.repairs]
    (False, [['neck band']])
    """
    from schematics.fitting.measured import given_wearer
    from schematics.fitting.rescue.rescue import rescue as rescued

    design, given = design_of(design), given_of(age, measurements, needed=False)
    texts = several_of(measured, "finished measurements, such as ['body hem edge 140']")
    try:
        return rescued(design, size, texts, given_wearer(given, design.unit) if given else None)
    except UsageError as error:
        raise UsageError(*map(as_argument, error.problems)) from None


def _as_argument(problem: str) -> str:
    """As `as_argument`; what the command takes one by one is one argument here."""
    return as_argument(problem.replace("--change:", "--changes:", 1)).replace("with --have", "with have")
