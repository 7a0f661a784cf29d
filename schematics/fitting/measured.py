"""Reading one wearer: measurements given by name, or a small YAML file of them.

A file holds the keys of a size's ``wearer:`` block, and ``unit:`` for lengths written without one::

    unit: cm
    age: 6
    head_girth: 52.5
    hand_girth: 6 1/4 in
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from schematics.errors import Problems, UsageError
from schematics.reading.listed_blocks import WEARER_BLOCK, WearerRules
from schematics.reading.loading import LoadedFile, load
from schematics.reading.problems import KeyPath, Problem, SpecError, nearest, show_path, show_value
from schematics.reading.values import Context
from schematics.units import Unit
from schematics.wearer.body import Body, Wearer, WearerSpec
from schematics.wearer.expr import End
from schematics.wearer.plausible import slip
from schematics.wearer.resolve import resolve

_UNITS = [unit.value for unit in Unit]


def read_wearer(path: Path, unit: Unit) -> WearerSpec:
    """The wearer a YAML file describes.

    Args:
        path: the file.
        unit: the unit of bare numbers where the file says none.

    Raises:
        SpecError: the file cannot be used; the error holds every problem in it.
    """
    document = load(path, "measurements of a wearer such as 'head_girth: 52'")
    problems = [
        Problem(file=str(path), line=each.place.line, path=show_path(each.path), sentence=each.sentence)
        for each in document.faults
    ]
    data = document.data
    if isinstance(data, dict) and "unit" in data:
        word = data["unit"]
        data = {key: value for key, value in data.items() if key != "unit"}
        if word in _UNITS:
            unit = Unit(word)
        elif ("unit",) not in document.unread:
            line = document.places[("unit",)].line
            sentence = "expected cm or in"
            problems.append(Problem(file=str(path), line=line, path="unit", sentence=sentence))
    try:
        spec = _spec(data, unit)
    except ValidationError as error:
        problems += _file_problems(path, document, error, unit)
    else:
        problems += [
            Problem(file=str(path), line=document.places[(body.value,)].line, path=body.value, sentence=words)
            for body, words in _slips(spec, unit)
        ]
    if problems:
        raise SpecError(problems)
    return spec


def given_wearer(values: Mapping[str, str | float], unit: Unit) -> WearerSpec:
    """The wearer of measurements by name, as in a wearer block: ``{"head_girth": "20 1/2 in"}``.

    Raises:
        UsageError: a value cannot be used; a line for each, beginning with the option it came by.
    """
    try:
        spec = _spec(dict(values), unit)
    except ValidationError as error:
        details = error.errors(include_url=False)
        options = [_option(each["loc"][0]) if each["loc"] else "the wearer" for each in details]
        together = zip(options, details, strict=True)
        lines = Problems(f"{option}: {_sentence(each, unit)}" for option, each in together)
        refused = {each["loc"][0] for each in details if each["loc"]}
        rest = {key: value for key, value in values.items() if key not in refused}
        if rest and len(rest) < len(values):
            with lines.noted():
                given_wearer(rest, unit)
        raise UsageError(*lines) from None
    slips = [f"{_option(body.value)}: {words}" for body, words in _slips(spec, unit)]
    if slips:
        raise UsageError(*slips)
    return spec


def merged(first: WearerSpec, second: WearerSpec) -> WearerSpec:
    """What two say of one wearer; where both say something, what the second says wins."""
    return WearerSpec(
        chart=second.chart or first.chart,
        age_years=first.age_years if second.age_years is None else second.age_years,
        own={**first.own, **second.own},
    )


def resolved(spec: WearerSpec) -> Wearer:
    """The wearer, labelled as the child or grown-up that is asked about.

    Raises:
        WearerError: the age is impossible, or contradicts an age row.
    """
    return resolve(spec, "the wearer")


def at_end(wearer: Wearer, end: End) -> Wearer:
    """The wearer whose every measurement is at one end of its spread."""
    cms = {body: getattr(value, end.field) for body, value in wearer.values.items()}
    values = {
        body: replace(value, low_cm=cms[body], cm=cms[body], high_cm=cms[body])
        for body, value in wearer.values.items()
    }
    return replace(wearer, values=values)


def _spec(data: Any, unit: Unit) -> WearerSpec:
    context = Context(
        unit=unit,
        construction=None,
        fabrics=None,
        sizes=(),
        graded=False,
        first_by_folder={},
        first_surplus_size=None,
    )
    block: WearerRules = WEARER_BLOCK.model_validate(data, context=context)
    return WearerSpec(chart=block.chart, age_years=block.age, own=block.own())


def _slips(spec: WearerSpec, unit: Unit) -> Iterator[tuple[Body, str]]:
    for body, length_cm in spec.own.items():
        words = slip(body, length_cm, unit)
        if words is not None:
            yield body, words


def _option(key: str | int) -> str:
    return f"--{str(key).replace('_', '-')}"


def _sentence(detail: ErrorDetails, unit: Unit) -> str:
    """What is wrong; a length beyond what a spec may say is reported as any other that no body has."""
    context = detail.get("ctx", {})
    if "length_cm" in context and (words := slip(Body(str(detail["loc"][0])), context["length_cm"], unit)):
        return words
    return str(context.get("sentence") or context.get("error") or detail["msg"])


def _file_problems(path: Path, document: LoadedFile, error: ValidationError, unit: Unit) -> Iterator[Problem]:
    for detail in error.errors(include_url=False):
        where: KeyPath = document.existing_part(detail["loc"])
        if where in document.unread:
            continue
        shown = where[:-1] if detail.get("ctx", {}).get("unknown") else where
        sentence = _sentence(detail, unit) if shown == where else _no_measurement(str(where[-1]))
        yield Problem(
            file=str(path), line=document.places[where].line, path=show_path(shown), sentence=sentence
        )


def _no_measurement(key: str) -> str:
    """The problem of a key that a file of a wearer does not have."""
    near = nearest(key, ["age", "unit", *(body.value for body in Body)])
    hint = f"did you mean {near[0]!r}?" if near else f"delete the line; {_KEYS}"
    return f"{show_value(key)} is no measurement; {hint}"


_KEYS = "what is read is age, and measurements such as height, head_girth and hand_girth"
