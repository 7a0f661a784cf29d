"""A design made to measure: from one of its sizes to a design of one size, for one person and one maker.

The counts are judged by all checks on the design that comes out: stitches picked up along an edge are as many
as her fabrics ask for, where a pattern that she works at her own gauge would have its own number of them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from schematics.analysis.changed_counts import CountChange, count_changes
from schematics.analysis.yarn.need import YarnNeed, yarn_need
from schematics.analysis.yarn.shorten import NOT_SHORTER, SHORTEN, Shortened, shortened
from schematics.analysis.yarn.stash import StashVerdict, colour_verdicts, stash_verdict
from schematics.checks.evaluation import Result, chosen_sizes, evaluate
from schematics.checks.finding import Severity
from schematics.checks.seams import LENGTH as SEAM_LENGTH
from schematics.crochet.fabric import Fabric
from schematics.design.design import Design, Size, Yarn
from schematics.errors import Problems, UsageError
from schematics.fitting.advice import Advice
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.measured import resolved
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.to_measure.asked_changes import (
    AskedChange,
    asks_for_none,
    differing_counts,
    in_counts,
    read_changes,
    with_changes,
)
from schematics.fitting.to_measure.begun import begun, fittings_of
from schematics.fitting.to_measure.order import NotWearableError, Order, UnworkableError
from schematics.fitting.to_measure.own_yarn import mass_ratio, with_mass
from schematics.fitting.to_measure.trade import trade
from schematics.fitting.to_measure.workable_changes import workable_changes
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.reading.piece_bounds import garment_faults
from schematics.reading.spec_words import folder_fault
from schematics.reading.values import letter_fault
from schematics.wearer.asking import distinct_questions, questions_of
from schematics.wearer.body import Wearer

LONGEST_NAME = 24


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class MadeToMeasure:
    """What came of an order.

    ``design`` has one size, ``result`` is that size worked out. ``start`` is the size it was made from as it
    stands, on the same wearer in the same fabrics; ``fit`` is the same of what was made, ``larger`` of the
    next size of the pattern as it stands, None of the last and where it is not hers. ``nearest`` is the size
    that is advised as it stands; ``other_sizes`` could be started from too, as far as is measured.
    """

    order: Order
    pattern: Design
    design: Design
    start: SizeFit
    fit: SizeFit
    larger: SizeFit | None
    nearest: str
    other_sizes: tuple[str, ...]
    result: Result
    stash: StashVerdict | None = None
    """Whether her yarn does; None where she names none, or it cannot be worked out."""

    shorter: Shortened | None = None
    """What would make it do, where it does not and shortening can."""

    not_made: Advice | None = None
    """Changes that mend something and make something else worse, which nobody asked for."""

    @property
    def asks_for_not_made(self) -> tuple[str, ...]:
        """How those are asked for, as an `Order` takes them: the first suggestion, or counts by name."""
        if self.not_made is None:
            return ()
        if not self.order.graded:
            return ("1",)
        before, after = self.not_made.before.at_gauge.size, self.not_made.after.at_gauge.size
        return tuple(each.text for each in differing_counts(before, after))

    @property
    def far_off_start(self) -> bool:
        """Whether it was made from a size that is not the wearer's, and is not right for that."""
        return self.start.is_not_hers and not self.order.graded and self.fit.how in ("mind", "stop")

    @property
    def changes(self) -> tuple[CountChange, ...]:
        """The counts that are not those of the size it was made from."""
        return count_changes(self.start.at_gauge.size, self.fit.at_gauge.size, self.design)

    @property
    def counts(self) -> tuple[tuple[str, object, object], ...]:
        """Every count by its key in a spec, and that of the size it was made from, None where it has none.

        A count is a number, or several that belong together.
        """
        old = counts_of(self.start.at_gauge.size)
        return tuple(
            (key, count, old[key])
            for key, count in counts_of(self.fit.at_gauge.size).items()
            if count is not None and not isinstance(count, bool)
        )

    @property
    def lasting(self) -> tuple[SizeFit, ...]:
        """What was made, and the next size of the pattern if there is one: until when they fit is printed."""
        return (self.fit,) if self.larger is None else (self.fit, self.larger)

    def __repr__(self) -> str:
        return f"<MadeToMeasure from size {self.start.name!r}: {self.result.verdict.value}>"


def made_to_measure(design: Design, order: Order) -> MadeToMeasure:
    """What a maker asks for, judged by all checks.

    Without changes asked for, where the size has something that stops or is to be minded, the smallest
    changes that are advised are made.

    Raises:
        UsageError: there is no such size, count or suggestion, or the counts cannot be worked.
        NotWearableError: something stops what would come out.
    """
    refuse(design, order)
    own = _own(design, order)
    wearer = resolved(order.wearer)
    sizes = chosen_sizes(own, None if order.size is None else [order.size])
    numbers, changes = read_changes(order.changes, sizes[0])
    fittings = fittings_of(design, own, order, wearer)
    begin = begun(design, own, order, fittings, numbers, changes)
    start, size = begin.start, begin.size
    changes = in_counts(design, size, changes)
    one_size = _of_one_size(own, order, _changed(own, order, size, numbers, changes))
    if SHORTEN in numbers:
        one_size = _shortened(one_size, order)
    _refuse_bounds(one_size, changes)
    (result,) = evaluate(one_size)
    if result.verdict is Severity.STOP:
        raise NotWearableError(_why_not(result, order), _instead(own, order, size, numbers, changes))
    fit = size_fit(one_size, size_at_gauge(one_size, one_size.sizes[0]), result.wearer)
    stash = _stash(one_size, result, order)
    lacking = stash in (StashVerdict.TIGHT, StashVerdict.SHORT)
    return MadeToMeasure(
        order=order,
        pattern=design,
        design=one_size,
        start=start,
        fit=fit,
        larger=_larger(own, start, wearer),
        nearest=fittings.chosen.advised.name,
        other_sizes=tuple(name for name in fittings.chosen.other_sizes if name != start.name),
        result=result,
        stash=stash,
        shorter=shortened(one_size, result, order.stash_g) if lacking else None,
        not_made=trade(one_size, fit) if order.graded and not order.changes else begin.not_made,
    )


def _stash(one_size: Design, result: Result, order: Order) -> StashVerdict | None:
    need = yarn_need(one_size, result.garment)
    weighed = order.stash_g and not need.unweighed
    return stash_verdict(colour_verdicts(need, order.stash_g)) if weighed else None


def yarn_to_buy(poncho: MadeToMeasure) -> tuple[YarnNeed, Yarn]:
    """The yarn it takes, and which: hers, or the pattern's where too little is known of hers."""
    need = yarn_need(poncho.design, poncho.result.garment)
    if poncho.order.yarn is None or not need.unweighed:
        return need, poncho.design.yarn
    usual = _own(poncho.pattern, replace(poncho.order, yarn=None))
    garment = CONSTRUCTIONS[usual.construction].build(poncho.design.sizes[0], usual.parts)
    return yarn_need(usual, garment), usual.yarn


def refuse(design: Design, order: Order) -> None:
    """Refuse a name, a size or changes that no order may have, whomever it is for.

    Raises:
        UsageError: a line for each.
    """
    problems = Problems()
    with problems.noted():
        _refuse_name(order.name)
    with problems.noted():
        chosen_sizes(design, None if order.size is None else [order.size])
    with problems.noted():
        numbers, _ = read_changes(order.changes, design.sizes[0])
        if order.graded and asks_for_none(order.changes):
            raise UsageError("--change: all counts are found anew, so 'none' cannot be had; leave out one")
        if order.graded and numbers:
            raise UsageError(
                "a suggestion starts from counts of a size, and grading finds others; leave out one"
            )
    problems.refuse()


def doubted(design: Design, order: Order) -> tuple[str, ...]:
    """What is to be asked of the measurements, a sentence for each: where nothing fits, it may be they."""
    return distinct_questions(questions_of(resolved(order.wearer), design.unit))


def _larger(own: Design, start: SizeFit, wearer: Wearer) -> SizeFit | None:
    """The next size of the pattern, in the maker's fabrics, if it may be the wearer's."""
    names = [size.name for size in own.sizes]
    after = own.sizes[names.index(start.name) + 1 :]
    larger = size_fit(own, size_at_gauge(own, after[0]), wearer) if after else None
    return None if larger is None or larger.is_not_hers else larger


def _own(design: Design, order: Order) -> Design:
    """The design in the maker's fabrics and yarn, its sizes held to no lengths that were meant for others."""
    yarn = order.yarn or design.yarn
    lighter = mass_ratio(design.yarn, yarn)

    def worked(fabric: Fabric) -> Fabric:
        return with_mass(fabric, lighter)

    return replace(
        design,
        parts=(order.parts or design.parts).with_fabrics(worked),
        yarn=yarn,
        sizes=tuple(replace(size, meant=()) for size in design.sizes),
        graded=(),
        pattern_parts=design.parts,
        pattern_yarn=design.yarn,
    )


def _of_one_size(own: Design, order: Order, size: Size) -> Design:
    """The design of one size, for the wearer alone; it has the name of the size where nobody is named."""
    return replace(
        own,
        title=f"{own.title} for {order.name}" if order.name else own.title,
        sizes=(replace(size, name=order.name or size.name, wearer=order.wearer),),
    )


def _changed(
    own: Design, order: Order, size: Size, numbers: Sequence[int], changes: Sequence[AskedChange]
) -> Size:
    """The size with the changes."""
    if not changes:
        return size
    try:
        return with_changes(own, size, changes)
    except UsageError as error:
        raise UnworkableError(error.problems, _instead(own, order, size, numbers, changes)) from None


def _instead(
    own: Design, order: Order, size: Size, numbers: Sequence[int], changes: Sequence[AskedChange]
) -> tuple[str, ...]:
    """What to ask for in place of changes that cannot be worn, the suggestions among it as they were."""
    if SHORTEN in numbers:
        return ()
    wearer = resolved(order.wearer)
    far_off = _is_far_off(own, wearer, size)
    near = workable_changes(
        own,
        size,
        changes,
        lambda tried: None if _is_far_off(own, wearer, tried) > far_off else _minded(own, order, tried),
    )
    return (*map(str, numbers), *near) if near else ()


def _is_far_off(own: Design, wearer: Wearer, size: Size) -> bool:
    """Whether bands or hem come far from where the pattern's size means them to: nobody would ask for it."""
    return size_fit(own, size_at_gauge(own, size), wearer).is_not_hers


def _minded(own: Design, order: Order, size: Size) -> tuple[int, int] | None:
    """How many seams, and checks in all, are to be minded of a size; None where it cannot be made or worn."""
    (result,) = evaluate(_of_one_size(own, order, size))
    if result.verdict is Severity.STOP or [*garment_faults(result.garment, _counts(own))]:
        return None
    minded = [each.code for each in result.findings if each.severity is Severity.MIND]
    return minded.count(SEAM_LENGTH), len(minded)


def _shortened(one_size: Design, order: Order) -> Design:
    """The design shortened until the yarn at hand does."""
    if not order.stash_g:
        raise UsageError(
            f"--change: suggestion {SHORTEN} shortens for the yarn at hand; say how much with --have"
        )
    (result,) = evaluate(one_size)
    shorter = shortened(one_size, result, order.stash_g)
    if shorter is None:
        raise NotWearableError(f"The yarn at hand is not enough; {NOT_SHORTER}")
    return replace(one_size, sizes=(shorter.result.size,))


def _refuse_name(name: str) -> None:
    if not name:
        return
    fault = folder_fault(name, LONGEST_NAME) or letter_fault(name)
    if fault:
        raise UsageError(f"--name: the name becomes a folder's: {fault}")


def _refuse_bounds(one_size: Design, changes: Sequence[AskedChange]) -> None:
    """Refuse pieces so large that no spec may have them, in a maker's words."""
    garment = CONSTRUCTIONS[one_size.construction].build(one_size.sizes[0], one_size.parts)
    names = {each.key: each.name for each in garment.finished}
    faults = [
        f"--change: {' '.join(names.get(word, word) for word in fault.split(' '))}"
        for _, fault in garment_faults(garment, _counts(one_size))
    ]
    if faults and changes:
        raise UsageError(*faults)


def _counts(design: Design) -> Mapping[str, str]:
    return CONSTRUCTIONS[design.construction].counts


def _why_not(result: Result, order: Order) -> str:
    stopping = next(each for each in result.findings if each.severity is Severity.STOP)
    if asks_for_none(order.changes):
        return f"As the pattern has it it cannot be worn: {stopping.sentence}"
    if order.changes:
        return f"With these changes it cannot be worn: {stopping.sentence}"
    if order.graded:
        return f"No counts make it right for this wearer: {stopping.sentence}"
    return f"Nothing small makes it right for this wearer: {stopping.sentence}"
