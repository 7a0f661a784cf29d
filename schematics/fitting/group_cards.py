"""A card for each child of a class or club, to be cut out: size, what to mind, what to hold against it."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from schematics.checks.certainty import chance_words
from schematics.checks.check_names import check_name
from schematics.checks.rules import arms, hang, neck, reach
from schematics.checks.rules.sentence import TO_BE_SURE, Answer
from schematics.checks.wording import listed
from schematics.design.cautions import ALONE
from schematics.design.design import Design
from schematics.document.common import cautions_section
from schematics.document.document import NONE, Block, Document, Items, Quantity, Section, Table
from schematics.document.lettering.text import unlettered
from schematics.errors import UsageError
from schematics.fitting.advice_words import NEAREST, NOT_HERS, left_open
from schematics.fitting.fit_report import spare_words
from schematics.fitting.group import GroupFit
from schematics.fitting.sizing import Point, SizeFit, size_fit
from schematics.reading.values import LETTERS
from schematics.units import Grain, figure, format_both
from schematics.wearer.age_words import age_words
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve

MOST_CARDS = 500
"""Wearers of a group who have a card each."""

HELD_AGAINST: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {
        neck.PASS: ("neck opening, stretched, and head", "to spare", "too tight"),
        arms.PASS: ("arm band, stretched, and hand", "to spare", "too tight"),
        reach.BAND: ("nape along the arm to the band, and wrist", "past the wrist", "above the wrist"),
        hang.KNEE: ("nape down to the lowest of the hem, and knee", "above the knee", "below the knee"),
        hang.WHERE: ("nape down to the hem, and waist", "below the waist", "above the waist"),
    }
)
"""The rules whose lengths a tape shows on poncho and child alike: what is measured, and where the poncho
comes, with something to spare and with too little."""

_WRITE_IN = "The name has letters that cannot be printed here: write it in by hand."
_TRY_EARLY = "Not all could be judged, for want of a measurement: try it on early."


def cards_document(design: Design, group_fit: GroupFit, *, lettered: bool) -> Document:
    """A card for every wearer, in the order of the file.

    Args:
        design: what is made.
        group_fit: whom it is for.
        lettered: whether the cards have the sheets' letters only; one whose name has others says its line.

    Raises:
        UsageError: there are too many, or none.
    """
    many = len(group_fit.group.names)
    if many == 0:
        raise UsageError("--cards: no line of the list can be used, so no card is written")
    if many > MOST_CARDS:
        raise UsageError(f"--cards: expected {MOST_CARDS} wearers at most, got {many}; part the file")
    return Document(
        title=f"{design.title}: a card for each child",
        sections=tuple(_card(design, group_fit, place, lettered=lettered) for place in range(many)),
        closing=(cautions_section(),),
        sold=True,
    )


def _card(design: Design, group_fit: GroupFit, place: int, *, lettered: bool) -> Section:
    group = group_fit.group
    name = " ".join(group.names[place].split())
    lost = lettered and bool(_unprinted(name))
    heading = f"Child in line {group.lines[place]} of the list" if lost or not name else name
    spec = _spec(group_fit, place)
    at_gauge = group_fit.sizes[int(group_fit.judged.best[place])].at_gauge
    fit = size_fit(design, at_gauge, resolve(spec, name))
    wearable = bool(group_fit.fits[place])
    return Section(
        f"{heading}: {f'size {fit.name}' if wearable else 'no size as it is'}",
        (
            *((_WRITE_IN,) if lost else ()),
            _given(spec, fit),
            *group_fit.questions.get(int(group.lines[place]), ()),
            *_verdict(fit, wearable=wearable),
            *_doubts(group_fit, place, fit),
            _held_against(design, fit),
            *_yarn(group_fit, design, fit, wearable=wearable),
            ALONE,
        ),
        cut_out=True,
    )


def unprinted_names(names: Sequence[str], lines: Sequence[int]) -> str:
    """What is to be known of names that have other letters than the sheets; empty where there are none."""
    lost = [line for name, line in zip(names, lines, strict=True) if _unprinted(name)]
    if not lost:
        return ""
    first, more = ("a name", "") if len(lost) == 1 else (f"{len(lost)} names", ", the first of them")
    cards = "its card says" if len(lost) == 1 else "their cards say"
    return (
        f"{first} cannot be printed in a PDF, which has {LETTERS}{more} in line {lost[0]}: {cards} the line "
        "instead; write it in by hand, or have the cards as a .html file, which shows every name"
    )


def _unprinted(name: str) -> str:
    return unlettered(" ".join(unicodedata.normalize("NFC", name).split()))


def _spec(group_fit: GroupFit, place: int) -> WearerSpec:
    group = group_fit.group
    own = {body: float(column[place]) for body, column in group.own.items() if not math.isnan(column[place])}
    age = float(group.ages[place])
    return WearerSpec(age_years=None if math.isnan(age) else age, own=own)


def _given(spec: WearerSpec, fit: SizeFit) -> str:
    """What is known of a child."""
    ages = [] if spec.age_years is None else [f"age {age_words(spec.age_years)}"]
    own = [f"{body.words} {format_both(cm, Grain.USUAL)}" for body, cm in spec.own.items()]
    rest = "; the rest is estimated" if len(spec.own) < len(Body) and not fit.unknown else ""
    return f"Known: {', '.join([*ages, *own])}{rest}."


def _verdict(fit: SizeFit, *, wearable: bool) -> Iterator[Block]:
    sentences = [each.sentence for each in fit.reported if not each.unsure]
    if not wearable:
        yield NEAREST.format(size=fit.name)
        if fit.is_not_hers:
            yield NOT_HERS.format(size=fit.name)
    elif sentences:
        yield f"Work size {fit.name}, and mind this:"
    elif fit.unknown:
        yield f"As far as is known size {fit.name} fits. {_TRY_EARLY}"
    elif fit.reported:
        yield f"As far as it is measured size {fit.name} fits."
    else:
        yield f"Size {fit.name} fits: nothing is to be minded."
    if sentences:
        yield Items(tuple(sentences))


def _doubts(group_fit: GroupFit, place: int, fit: SizeFit) -> Iterator[str]:
    """What is not sure, which measurement decides, and which sizes it could be as well."""
    chances = (group_fit.chances or {}).get(place, {})
    if chances:
        unsure = dict.fromkeys(
            f"{check_name(code)} ({chance_words(each)} hold)" for code, each in chances.items()
        )
        yield f"Not sure: {listed(unsure)}."
    others = [
        size.name
        for at, size in enumerate(group_fit.sizes)
        if group_fit.could_be[at, place] and size.name != fit.name
    ]
    if others:
        yield left_open(others)
    decided = (group_fit.deciding or {}).get(place)
    if decided is not None:
        settled = f"measure the {decided.body.words}: it settles {decided.settles.words}"
        yield TO_BE_SURE.format(measure=settled)


def _held_against(design: Design, fit: SizeFit) -> Table:
    unit = design.unit

    def length(cm: float | None) -> Quantity:
        if cm is None:
            return Quantity(None, NONE, unit.value)
        return Quantity(unit.from_cm(cm), figure(cm, unit, Grain.USUAL), unit.value)

    def comes(point: Point, ease_cm: float) -> Quantity:
        _, more, less = HELD_AGAINST[point.code]
        words = f"{spare_words(point, unit).removeprefix('-')} {less if ease_cm < 0 else more}"
        return Quantity(unit.from_cm(ease_cm), words, unit.value)

    rows = tuple(
        (HELD_AGAINST[each.code][0], length(each.garment_cm), length(each.body_cm), comes(each, each.ease_cm))
        for each in fit.points
        if each.code in HELD_AGAINST and each.answer is not Answer.UNKNOWN and each.ease_cm is not None
    )
    return Table(header=(f"in {unit.words}", "the poncho", "the child", "so it comes"), rows=rows)


def _yarn(group_fit: GroupFit, design: Design, fit: SizeFit, *, wearable: bool) -> Iterator[str]:
    needs = {each.name: each.need for each in group_fit.counts(design)}
    balls = [
        f"{each.balls} ball{'' if each.balls == 1 else 's'}{' of ' + each.colour if each.colour else ''}"
        for each in needs[fit.name].colours
        if each.balls is not None
    ]
    if wearable and balls:
        yield f"Yarn: {listed(balls)}."
