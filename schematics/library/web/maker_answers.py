"""What a maker answers on a form: read by the library's own parsers, or every problem by its field."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace

from schematics.crochet.fabric import Fabric
from schematics.design.design import PARTS, Design, Parts
from schematics.document.lettering.text import unlettered
from schematics.drawing.ink.sheet import PAPERS
from schematics.errors import SchematicsError, UsageError
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.measured import given_wearer, resolved
from schematics.fitting.stretch_text import STRETCH_EXAMPLE, without_stretch
from schematics.fitting.to_measure.asked_changes import NONE_ASKED
from schematics.fitting.to_measure.made_to_measure import LONGEST_NAME
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.own_yarn import own_yarn
from schematics.reading.problems import show_value
from schematics.reading.spec_words import folder_fault
from schematics.reading.spellings import NUMBER_PATTERN, parse_length
from schematics.reading.values import LETTERS
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec

BODIES = tuple(body.value for body in Body)
GAUGE = ("stitches", "rows")
SWATCHES: Mapping[str, str] = {f"{key}_swatch": key.replace("_", " ") for key in PARTS if key != "body"}
"""The parts that a fabric of their own may have its swatch in a field for."""
YARN = ("yarn", "ball_mass", "ball_length")
OFFERED, APART = "offered", "; "
"""The field of changes that an answer offered, which no maker types, and what parts several of them."""
GRADED = "found anew"
"""Asked for in the place of changes: counts that are found for this body."""

FIELDS: Mapping[str, int] = {
    "unit": 2,
    "age": 40,
    **dict.fromkeys(BODIES, 40),
    **dict.fromkeys((*GAUGE, "over"), 40),
    **dict.fromkeys(("stretch", *SWATCHES), 70),
    "yarn": 60,
    "ball_mass": 40,
    "ball_length": 40,
    "name": LONGEST_NAME,
    "size": 40,
    "change": len(GRADED),
    OFFERED: 200,
    "paper": 6,
}
"""Every field of the form, and how many characters it takes."""

_OPTION = re.compile(r"--([a-z-]+): ")
_NUMBER = re.compile(rf"\s*{NUMBER_PATTERN}\s*", re.ASCII)


class AnswersError(UsageError):
    """Answers that cannot be used; ``by_field`` has a sentence for each, the field "" what is of none."""

    def __init__(self, by_field: Mapping[str, str]) -> None:
        self.by_field = dict(by_field)
        super().__init__(*self.by_field.values())


def asked_design(design: Design, given: Mapping[str, str]) -> Design:
    """The design, in the unit that is asked for."""
    unit = given.get("unit")
    return replace(design, unit=Unit(unit)) if unit in list(Unit) else design


def asked_paper(given: Mapping[str, str]) -> str:
    """A4 unless the other is asked for."""
    paper = given.get("paper", "")
    return paper if paper in PAPERS else next(iter(PAPERS))


def read_order(design: Design, given: Mapping[str, str]) -> Order:
    """What is asked for.

    Args:
        design: the design, in the maker's unit.
        given: what was typed, by `FIELDS`; what is left out or empty was not answered.

    Raises:
        AnswersError: something cannot be used.
    """
    typed = {field: text.strip() for field, text in given.items() if text.strip()}
    problems: dict[str, str] = {}
    wearer, parts, yarn, size = WearerSpec(), None, None, typed.get("size", "")
    with _noting(problems):
        wearer = _wearer(typed, design)
    with _noting(problems):
        parts = _parts(typed, design)
    with _noting(problems):
        yarn = own_yarn(design.yarn, *(typed.get(field) for field in YARN))
    if fault := _name_fault(typed.get("name", "")):
        problems["name"] = f"this name cannot be used: {fault}"
    if size not in {"", *(each.name for each in design.sizes)}:
        problems["size"] = "there is no such size"
    change = typed.get("change", "")
    if change not in {"", NONE_ASKED, GRADED}:
        problems["change"] = f"expected {NONE_ASKED!r}, {GRADED!r} or nothing"
    if problems:
        raise AnswersError(problems)
    return Order(
        wearer=wearer,
        parts=parts,
        yarn=yarn,
        size=size or None,
        graded=change == GRADED,
        changes=_changes(typed),
        name=typed.get("name", ""),
    )


def _changes(typed: Mapping[str, str]) -> tuple[str, ...]:
    if OFFERED in typed:
        return tuple(typed[OFFERED].split(APART))
    return (NONE_ASKED,) if typed.get("change") == NONE_ASKED else ()


@contextmanager
def _noting(problems: dict[str, str], field: str = "") -> Iterator[None]:
    """Put what is wrong beside ``field``, or that which it came by; of several problems of one the first."""
    try:
        yield
    except AnswersError as error:
        problems |= error.by_field
    except SchematicsError as error:
        for name, sentence in by_field(error).items():
            problems.setdefault(field or name, sentence)


def by_field(error: SchematicsError) -> dict[str, str]:
    """The problems by the fields that the options they begin with are on the form, "" for any other."""
    noted: dict[str, str] = {}
    for problem in error.problems:
        option = _OPTION.match(problem)
        name = option[1].replace("-", "_") if option else ""
        noted.setdefault(name if name in FIELDS else "", problem[option.end() :] if option else problem)
    return noted


def _wearer(typed: Mapping[str, str], design: Design) -> WearerSpec:
    measured = {field: typed[field] for field in ("age", *BODIES) if field in typed}
    if not measured:
        raise AnswersError({"age": "give an age, a height or any other measurement"})
    spec = given_wearer(measured, design.unit)
    try:
        resolved(spec)
    except SchematicsError as error:
        raise AnswersError({"age": str(error)}) from None
    return spec


def swatch_fields(design: Design) -> dict[str, Fabric]:
    """Every fabric but the body's, by the field of the first part worked in it."""
    fabrics: dict[str, Fabric] = {}
    for field, part in SWATCHES.items():
        fabric = design.parts.by_name[part]
        if fabric.name not in {design.parts.body.name, *(each.name for each in fabrics.values())}:
            fabrics[field] = fabric
    return fabrics


def _parts(typed: Mapping[str, str], design: Design) -> Parts | None:
    """The maker's fabrics; None where she counted and pulled nothing."""
    problems: dict[str, str] = {}
    texts: list[str] = []
    with _noting(problems):
        texts += _body_texts(typed, design)
    for field, fabric in swatch_fields(design).items():
        if field in typed:
            text = f"{fabric.name}: {typed[field]}"
            with _noting(problems, field):
                read_gauge([text], design)
            texts.append(text)
    if problems:
        raise AnswersError(problems)
    return read_gauge(texts, design).parts if texts else None


def _body_texts(typed: Mapping[str, str], design: Design) -> Iterator[str]:
    """What was entered of the body's swatch, as ``--gauge`` takes it."""
    counted = [field for field in GAUGE if field in typed]
    over = typed.get("over", design.unit.gauge_span[1])
    stretch = typed.get("stretch", "")
    problems = {
        field: f"expected a number such as 20 or 9.5, got {show_value(typed[field])}"
        for field in counted
        if not _NUMBER.fullmatch(typed[field])
    }
    with _noting(problems, "over"):
        _length(over, design)
    if "over" not in problems:
        for field in counted:
            with _noting(problems, field):
                read_gauge([f"{typed[field]} {field} over {over}"], design)
    if stretch:
        with _noting(problems, "stretch"):
            _refuse_other_than_stretch(stretch)
    if problems:
        raise AnswersError(problems)
    counted_text = " ".join(f"{typed[field]} {field}" for field in counted)
    swatch = f"{counted_text} over {over}" if counted else ""
    if swatch or stretch:
        yield f"{swatch} {stretch}".strip()


def _length(text: str, design: Design) -> None:
    try:
        length_cm = parse_length(text, design.unit)
    except ValueError as error:
        raise UsageError(str(error)) from None
    if length_cm <= 0:
        raise UsageError(f"expected more than 0, got {show_value(text)}")


def _refuse_other_than_stretch(text: str) -> None:
    before, stretch = without_stretch(text)
    if stretch is None or before.strip():
        raise UsageError(f"expected a stretch such as {STRETCH_EXAMPLE}, got {show_value(text)}")


def _name_fault(name: str) -> str:
    if sign := unlettered(name):
        return f"{sign!r} cannot be printed; use {LETTERS}, or leave it out"
    return folder_fault(name, LONGEST_NAME) if name else ""
