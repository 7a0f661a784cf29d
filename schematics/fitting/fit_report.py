"""How a wearer fits every size, as documents."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from schematics.checks.check_names import check_name, check_names
from schematics.checks.finding import Severity
from schematics.checks.ruled import SEVERITIES
from schematics.checks.rules.sentence import ORIGINS, Answer
from schematics.checks.rules.size_rules import asked_bodies, size_rules
from schematics.checks.tape import Tape
from schematics.checks.wording import listed, percent
from schematics.crochet.fabric import Fabric
from schematics.design.design import Design
from schematics.design.guessed import guessed_sentence
from schematics.design.limits import Limits
from schematics.document.common import cautions_section, design_title, rated, uncoded_findings_table
from schematics.document.csv_text import Value
from schematics.document.document import NONE, Block, Document, Items, Quantity, Rated, Section, Table
from schematics.fitting.advice import Advice
from schematics.fitting.advice_words import (
    NEAREST_AS_IT_IS,
    NOT_HERS,
    NOT_THIS_CHILDS,
    WORK_CHANGED,
    advised_sentence,
    amiss_sentences,
    left_open,
    to_be_sure,
)
from schematics.fitting.fit_keys import POINT
from schematics.fitting.fitting import Fitting, Instead
from schematics.fitting.gauge import PICKED_UP, Gauge, size_at_gauge
from schematics.fitting.gauge_text import OwnGauge
from schematics.fitting.growth_report import and_next, growth_sections
from schematics.fitting.report_json import fitting_json, instead_json, point_json
from schematics.fitting.sizing import Point, SizeFit
from schematics.fitting.suggestion_report import suggestion_sections
from schematics.fitting.suggestions import suggestions
from schematics.fitting.under_three import under_three
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Finished
from schematics.garment.printed_lengths import finished_figure
from schematics.units import HAIR, Grain, Unit, figure, format_both, round_half_up
from schematics.wearer.asking import ASKED_HEADING, distinct_questions, questions_of
from schematics.wearer.body import Body, BodyValue, Wearer

MARKS: Mapping[Answer, str] = {Answer.GOOD: " ", Answer.UNKNOWN: "?", Answer.MIND: "~", Answer.STOP: "!"}
"""The mark of an answer in the table."""

_TOO_WIDE = 100
"""Centimetres to spare that would make a column of the table wider, were they printed with a decimal."""


def fitting_document(design: Design, fitting: Fitting, gauge: OwnGauge | None, *, show_all: bool) -> Document:
    """The wearer, what is to spare in every size, the size advised and what would make it right."""
    offered = suggestions(fitting)
    lasting = and_next(fitting.fits, fitting.advised)
    at_gauge = fitting.fits if show_all else [fitting.advised]
    return Document(
        title=design_title(design),
        sections=(
            wearer_section(design, fitting.wearer),
            *questions_sections(fitting.wearer, design.unit),
            *_guesses(design),
            *([gauge_section(design, gauge)] if gauge else []),
            ease_section(fitting.fits, design.unit),
            Section(
                "Each size on this wearer",
                tuple(_verdict(fit, show_all or fit is fitting.advised) for fit in fitting.fits),
            ),
            _advised_section(design, fitting, offered),
            *growth_sections(lasting, fitting.wearer, design.limits),
            *(finished_sections(design, at_gauge) if gauge else []),
        ),
        closing=(cautions_section(young_told=bool(under_three(fitting.advised))),),
        data=lambda: fitting_json(design, fitting, gauge, offered),
        records=lambda: _records(fitting.fits),
    )


def _records(fits: Sequence[SizeFit]) -> Iterator[tuple[Value, ...]]:
    """A line for each point of each size, as in the JSON but for its name."""
    yield ("size", "verdict", *("point" if key == "code" else key for key in POINT))
    for fit in fits:
        for point in fit.points:
            named = point_json(point) | {"code": check_name(point.code)}
            yield (fit.name, fit.verdict.value, *named.values())


def wearer_section(design: Design, wearer: Wearer) -> Section:
    """What is known of the wearer as far as the rules need it, and where each length comes from."""
    asked = asked_bodies(design.limits)
    needed = [body for body in Body if body in asked]
    missing = [body.words for body in needed if body not in wearer.values]
    held = dict.fromkeys(value.held for value in wearer.values.values() if value.held)
    table = Table(
        header=("measurement", "length", "range", "from"),
        rows=tuple(
            (
                body.words,
                format_both(value.cm, Grain.USUAL),
                _range(value, design.unit),
                ORIGINS[value.origin].removeprefix("from the "),
            )
            for body in needed
            if (value := wearer.values.get(body)) is not None
        ),
        headed=False,
    )
    return Section(
        f"The wearer: {wearer.label}",
        (
            table,
            *(
                f"There the age table's {each}, answers: it goes no further. Measure, if you can."
                for each in held
            ),
            *(
                [f"Not known: {listed(missing)}. What hangs on them is not checked: measure, or give an age."]
                if missing
                else []
            ),
        ),
    )


def questions_sections(wearer: Wearer, unit: Unit) -> Iterator[Section]:
    """What is to be asked about the wearer's measurements, where anything is."""
    if asked := questions_of(wearer, unit):
        yield Section(ASKED_HEADING, (Items(distinct_questions(asked)),))


def _guesses(design: Design) -> Iterator[Section]:
    if sentence := guessed_sentence(design):
        yield Section("The pattern's figures", (sentence,))


def _range(value: BodyValue, unit: Unit) -> str:
    if value.high_cm - value.low_cm <= HAIR:
        return ""
    low, high = (figure(length_cm, unit, Grain.USUAL) for length_cm in (value.low_cm, value.high_cm))
    return f"{low} to {high}"


def _finished_length(item: Finished, unit: Unit) -> Quantity:
    return Quantity(unit.from_cm(item.length_cm), finished_figure(item, unit), unit.value)


def _counted(unit: Unit, gauge: Fabric | Gauge) -> str:
    return " and ".join(map(unit.gauge_figure, (gauge.stitches_per_cm, gauge.rows_per_cm)))


def gauge_section(design: Design, gauge: OwnGauge) -> Section:
    """The maker's gauge against the pattern's."""
    unit, (_, span) = design.unit, design.unit.gauge_span
    table = Table(
        header=("fabric", "yours", "the pattern's"),
        rows=tuple(
            (
                design.parts.named_for(fabric),
                _counted(unit, own),
                f"the pattern has {_counted(unit, fabric)}",
            )
            for fabric, own in gauge.given
        ),
        headed=False,
    )
    alike = (
        [
            f"You are taken to work {listed(_parts_of(design, gauge.alike))} as much tighter or looser; "
            "swatch each and say for which part it is where it matters, such as "
            f"--gauge 'neck band: 10 sts 8 rows over {design.unit.gauge_span[1]}'."
        ]
        if gauge.alike
        else []
    )
    uncounted = [
        f"You counted no {counted.words} for the {listed(_parts_of(design, [name]))}: the pattern's are "
        "taken; count them too where it matters."
        for name, counted in gauge.uncounted
    ]
    pulled = [
        _stretch_words(fabric, gauge.parts.fabrics[fabric.name], design.parts.named_for(fabric))
        for fabric in gauge.stretched
    ]
    if not gauge.given:
        return Section("Your swatches", tuple(pulled))
    picked_up = [PICKED_UP] if _picks_up(design) else []
    blocks: tuple[Block, ...] = (table, *uncounted, *alike, *picked_up, *pulled)
    return Section(f"Your gauge, stitches and rows to {span}", blocks)


def _picks_up(design: Design) -> bool:
    """Whether a band is worked onto row ends."""
    formulas = CONSTRUCTIONS[design.construction].formulas_of(design.sizes[0].body, design.parts)
    return any(ring.picked_up is not None for ring in (formulas.neck, formulas.arm))


def _parts_of(design: Design, names: Sequence[str]) -> list[str]:
    """The parts that are worked in fabrics."""
    used = (design.parts.used_for(design.parts.fabrics[name]) for name in names)
    return [part for parts in used for part in parts.split(", ")]


def _stretch_words(usual: Fabric, own: Fabric, parts: str) -> str:
    """What a maker's swatch gives, against the pattern's."""
    mine, theirs = (
        f"{percent(fabric.stretch_across)} across and {percent(fabric.stretch_along)} along"
        for fabric in (own, usual)
    )
    pulls = "one pull" if own.stretch_pulls == 1 else f"the mean of {own.stretch_pulls} pulls"
    return f"Your swatch for the {parts} gives {mine}, {pulls}; the pattern's gives {theirs}."


def ease_section(fits: Sequence[SizeFit], unit: Unit) -> Section:
    """What is to spare at each point in each size, and how each rule answers."""
    rules = size_rules(Limits())
    points = zip(*(fit.points for fit in fits), strict=True)
    table = Table(
        header=("", *(f"{fit.name} " for fit in fits)),
        rows=tuple(
            (rule.about.spare, *(_ease(point, unit) for point in of_sizes))
            for rule, of_sizes in zip(rules, points, strict=True)
        ),
    )
    legend = "! stops, ~ to mind, ? not known. Too much is no good either: see what is said of the size."
    return Section(f"To spare, in {unit.words}", (table, legend))


def spare_words(point: Point, unit: Unit) -> str:
    """What is to spare at a point, as its sentence says it, without the unit."""
    if point.ease_cm is None:
        return NONE
    if point.garment_cm is None or point.body_cm is None:
        return figure(point.ease_cm, unit, Grain.USUAL)
    return Tape(unit).spare(point.garment_cm, point.body_cm, point.ease_cm, point.grains)


def _ease(point: Point, unit: Unit) -> Quantity:
    if point.ease_cm is None:
        ease, text = None, "-"
    else:
        ease, text = point.ease_cm / unit.to_cm(1.0), spare_words(point, unit)
        if unit is Unit.CM and abs(ease) >= _TOO_WIDE:
            text = f"{round_half_up(ease, 1):.0f}"
    text += MARKS[point.answer]
    good = point.answer is Answer.GOOD
    return Quantity(ease, text if good else Rated(text, SEVERITIES[point.answer]), unit.value)


def _verdict(fit: SizeFit, in_full: bool) -> Section:
    """A size's verdict with its findings, or with what they are on only."""
    worst = fit.reported[0].severity if fit.reported else Severity.GOOD
    names = ", ".join(check_names(each.code for each in fit.reported))
    findings = fit.reported if in_full else ()
    return Section(
        (
            f"Size {fit.name}: ",
            rated(worst),
            " as far as is known" if fit.unknown else "",
            f", {NOT_THIS_CHILDS}" if fit.is_not_hers else "",
            f" ({names})" if names and not in_full else "",
        ),
        (uncoded_findings_table(findings),) if findings else (),
    )


def _advised_section(design: Design, fitting: Fitting, offered: Sequence[Advice]) -> Section:
    advised, measures = fitting.advised, fitting.advised.to_be_sure
    how = "stop" if advised.is_not_hers else advised.how
    heading = (
        advised_sentence(advised.name, how, unknown=bool(advised.unknown))
        if not offered or offered[0].before.name == advised.name
        else f"{WORK_CHANGED.format(size=offered[0].before.name)} "
        f"{NEAREST_AS_IT_IS.format(size=advised.name)}"
    )
    amiss = amiss_sentences(advised.reported)
    blocks: list[Block] = [*([amiss] if amiss else []), *under_three(advised)]
    if advised.is_not_hers:
        blocks.append(NOT_HERS.format(size=advised.name))
    if fitting.other_sizes:
        blocks.append(f"{left_open(fitting.other_sizes)} Measure it.")
    if measures:
        blocks.append(to_be_sure(measures))
    if offered and not fitting.right:
        blocks += suggestion_sections(design, offered, advised)
    elif not fitting.right and not measures:
        blocks.append("Nothing small makes it right.")
    return Section(heading, tuple(blocks))


def instead_document(design: Design, choices: Sequence[Instead], gauge: OwnGauge) -> Document:
    """Which size to work at a maker's gauge to come out right, for each size of the pattern."""
    table = Table(
        header=("size", "as it is", "work instead", "which is then"),
        rows=tuple(
            (each.meant, rated(each.as_it_is.verdict), each.instead.name, rated(each.instead.verdict))
            for each in choices
        ),
    )
    return Document(
        title=design_title(design),
        sections=(
            gauge_section(design, gauge),
            Section("What each size comes to, on the wearer it is meant for", (table,)),
            *finished_sections(design, [each.as_it_is for each in choices]),
        ),
        closing=(cautions_section(),),
        data=lambda: instead_json(design, choices, gauge),
    )


def finished_sections(design: Design, fits: Sequence[SizeFit]) -> Iterator[Section]:
    """The finished lengths of each size as it is made and as the pattern has it."""
    for fit in fits:
        pattern = size_at_gauge(design, fit.at_gauge.size).garment.finished
        table = Table(
            header=("", "at your gauge", "in the pattern"),
            rows=tuple(
                (own.name, _finished_length(own, design.unit), _finished_length(usual, design.unit))
                for own, usual in zip(fit.at_gauge.garment.finished, pattern, strict=True)
            ),
        )
        yield Section(f"Size {fit.name} finished, in {design.unit.words}", (table,))
