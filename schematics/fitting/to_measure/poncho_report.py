"""What was made to measure, as one document for its maker: verdict, body, measurements, counts, yarn."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.analysis.side_effects import effects
from schematics.analysis.yarn.need import spare_words, yarn_need
from schematics.analysis.yarn.shorten import NOT_SHORTER, SHORTEN
from schematics.analysis.yarn.stash import StashVerdict, colour_verdicts
from schematics.analysis.yarn.yarn_tables import left_words, shorter_words
from schematics.checks.finding import Severity
from schematics.checks.rules.sentence import Answer
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.crochet.fabric import Counted
from schematics.document.common import cautions_section
from schematics.document.document import NONE, Block, Document, Items, Section, Table
from schematics.fitting.advice_words import MADE_FROM_NOT_HERS, NEAREST_AS_IT_IS, NOT_HERS, left_open
from schematics.fitting.growth_report import growth_sections
from schematics.fitting.not_known import not_known
from schematics.fitting.to_measure.amiss import mended_blocks, not_made_blocks, verdict_blocks
from schematics.fitting.to_measure.asked_changes import plain_name
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure, yarn_to_buy
from schematics.fitting.to_measure.poncho_json import poncho_json
from schematics.fitting.under_three import under_three
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.printed_lengths import finished_figure
from schematics.pattern.written.materials import swatch_first
from schematics.pattern.written.stitch_size import amount_words, stitch_for_stitch
from schematics.wearer.asking import ASKED_HEADING, distinct_questions, questions_of


def poncho_document(poncho: MadeToMeasure) -> Document:
    """The page of what was made."""
    design = poncho.design
    return Document(
        title=design.title if poncho.order.name else f"{design.title}, made to measure",
        lead=tuple(_from(poncho)),
        sections=(
            Section("Does it fit?", tuple(_verdict(poncho))),
            *_yarn(poncho),
            *growth_sections(poncho.lasting, poncho.result.wearer, design.limits),
            _body_section(poncho),
            Section("Finished measurements, laid flat without stretch", (_finished(poncho),)),
            _counts_section(poncho),
        ),
        closing=(cautions_section(young_told=bool(under_three(poncho.fit))),),
        data=lambda: poncho_json(poncho),
        sold=True,
    )


def _from(poncho: MadeToMeasure) -> Iterator[str]:
    words = [each.words for each in poncho.changes]
    size = poncho.start.name
    yield (
        f"Made from size {size}, with {listed(words)}." if words else f"The counts are those of size {size}."
    )
    if words and poncho.order.graded:
        nearest = "" if poncho.order.size else ", the size that comes nearest to this body as it stands"
        yield (
            f"All counts were found anew for this body, with finished lengths near those of size {size}"
            f"{nearest}."
        )
    if (
        words
        and not poncho.order.changes
        and not poncho.order.graded
        and poncho.start.verdict is not Severity.STOP
    ):
        yield "These changes are the smallest found that help."
        if poncho.nearest != size:
            yield NEAREST_AS_IT_IS.format(size=poncho.nearest)


def _verdict(poncho: MadeToMeasure) -> Iterator[Block]:
    """Whether it can be worn, and what is to be minded."""
    yield from under_three(poncho.fit)
    yield from verdict_blocks(poncho.fit)
    if unknown := not_known(poncho.fit):
        yield unknown
    if poncho.far_off_start:
        yield (MADE_FROM_NOT_HERS if poncho.changes else NOT_HERS).format(size=poncho.start.name)
    yield from mended_blocks(poncho.start, poncho.fit)
    if poncho.not_made is not None:
        yield from not_made_blocks(poncho.design, poncho.not_made)
    if poncho.other_sizes:
        yield left_open(poncho.other_sizes)
    if asked := questions_of(poncho.result.wearer, poncho.design.unit):
        yield Items(distinct_questions(asked), ASKED_HEADING)


def _body_section(poncho: MadeToMeasure) -> Section:
    """What the rules say that depend on the wearer."""
    codes = {point.code for point in poncho.fit.points if point.answer is not Answer.UNKNOWN}
    sentences = tuple(each.sentence for each in poncho.fit.findings if each.code in codes)
    return Section("Against the body", (Items(sentences),))


def _finished(poncho: MadeToMeasure) -> Table:
    rows, units = [], poncho.design.units
    for item in poncho.result.garment.finished:
        counted = {Counted.STITCHES: "sts", Counted.ROWS: "rows", None: ""}[item.counted]
        count = "" if item.count is None else f"{item.count} {counted}".rstrip()
        rows.append((item.name, *(finished_figure(item, unit) for unit in units), count))
    return Table(header=("", *(unit.words for unit in units), "count"), rows=tuple(rows))


def _counts_section(poncho: MadeToMeasure) -> Section:
    """Every count beside that of the size it was made from."""
    names = CONSTRUCTIONS[poncho.design.construction].count_names
    rows = tuple(
        (names.get(key, plain_name(key)), _count(count), _count(before))
        for key, count, before in poncho.counts
    )
    table = Table(header=("", "yours", f"size {poncho.start.name} in the pattern"), rows=rows)
    lengths = [
        each.words(Tape(poncho.design.unit)) for each in effects(poncho.start.at_gauge, poncho.fit.at_gauge)
    ]
    sentences = (
        [f"Against size {poncho.start.name} at the same gauge: {', '.join(lengths)}."] if lengths else []
    )
    return Section("Counts", (table, *sentences))


def _count(count: object) -> str:
    if isinstance(count, tuple):
        return ", ".join(map(str, count))
    return NONE if count is None else str(count)


def _yarn(poncho: MadeToMeasure) -> Iterator[Section]:
    """How much it takes, and whether the yarn at hand does."""
    other = tuple(swatch_first(poncho.design))
    yield Section("Yarn", (_taken(poncho), *other, *_at_hand(poncho, at_gauge=not other)))


def _taken(poncho: MadeToMeasure) -> str:
    need, yarn = yarn_to_buy(poncho)
    if need.unweighed:
        parts = poncho.design.parts
        whose = listed(parts.named_for(parts.fabrics[name]) for name in need.unweighed)
        return f"How much it takes is not known: nobody weighed a swatch for the {whose}."
    amounts = listed(amount_words(each, yarn, poncho.design.unit) for each in need.colours)
    spare = spare_words(poncho.design.yarn_use, [need])
    whose = f"the pattern’s yarn ({yarn.name})" if yarn == poncho.pattern.yarn else yarn.name
    begin = "To buy" if poncho.stash is None else "It takes"
    reckoned = (
        stitch_for_stitch(poncho.design, need, poncho.result.garment, yarn)
        if poncho.order.parts is not None
        else ()
    )
    return " ".join([f"{begin}, with {spare} to spare: {amounts} of {whose}.", *reckoned])


_ENOUGH = {
    StashVerdict.ENOUGH: "{the} yarn at hand is enough",
    StashVerdict.TIGHT: "{the} yarn at hand is enough only without what is reckoned to spare",
    StashVerdict.SHORT: "{the} yarn at hand is not enough",
}
_AT_PATTERNS_GAUGE = "If one strand of it works up to the pattern’s gauge, the"
"""What is said first of the amount of a yarn that is not as thick as the pattern's."""


def _at_hand(poncho: MadeToMeasure, *, at_gauge: bool) -> Iterator[str]:
    """Whether the yarn at hand does; not ``at_gauge`` is a yarn whose gauge nobody knows yet."""
    if poncho.stash is None:
        return
    need = yarn_need(poncho.design, poncho.result.garment)
    verdicts = colour_verdicts(need, poncho.order.stash_g)
    left = ", ".join(left_words(each, poncho.design.unit) for each in verdicts)
    yield f"{_ENOUGH[poncho.stash].format(the='The' if at_gauge else _AT_PATTERNS_GAUGE)}: {left}."
    if poncho.shorter is not None:
        shorter = shorter_words(poncho.shorter, Tape(poncho.design.unit), poncho.design.unit)
        yield f"Get that much more, or ask for suggestion {SHORTEN}: {shorter}"
    elif poncho.stash is not StashVerdict.ENOUGH:
        yield f"Get that much more: {NOT_SHORTER}"
