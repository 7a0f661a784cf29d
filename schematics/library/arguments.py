"""Arguments of the public functions: what is wrong with one is reported in a sentence."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TypedDict, TypeVar, cast

from schematics.design.design import Design
from schematics.errors import UsageError

PathLike = str | os.PathLike[str]
_Key = TypeVar("_Key")
_Item = TypeVar("_Item")


class Measurements(TypedDict, total=False):
    """Body measurements: text such as ``52 cm`` or ``20 1/2 in``, or a number in the design's unit."""

    head_girth: str | float
    neck_girth: str | float
    chest_girth: str | float
    upper_arm_girth: str | float
    wrist_girth: str | float
    hand_girth: str | float
    shoulder_breadth: str | float
    centre_back_neck_to_wrist: str | float
    forearm_length: str | float
    armhole_depth: str | float
    back_waist_length: str | float
    height: str | float
    nape_height: str | float
    waist_height: str | float
    hip_height: str | float
    knee_height: str | float


class UnknownNameError(UsageError, KeyError):
    """There is no size or sheet of that name; the text lists those there are."""


def path_of(path: PathLike) -> Path:
    """The path of a file or folder, which is not the text of a file.

    Raises:
        TypeError: it is no ``str`` or ``os.PathLike``.
        UsageError: it is empty, or cannot be a path.
    """
    text = os.fspath(path) if isinstance(path, str | os.PathLike) else path
    if not isinstance(text, str):
        raise TypeError(f"expected a path as a str or an os.PathLike, got {kind_of(path)}")
    if not text or any(sign in text for sign in "\n\r\0"):
        raise UsageError(
            f"expected the path of a file or folder, got {kind_of(text)}; save a text as a file first"
        )
    return Path(text)


def design_of(design: Design) -> Design:
    """The design as it stands.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(design, Design):
        raise TypeError(f"expected a design, such as schematics.read gives, got {kind_of(design)}")
    return design


def paper_of(paper: str) -> str:
    """The paper's name.

    Raises:
        UsageError: there is no such paper.
    """
    from schematics.drawing.ink.sheet import PAPERS

    return one_of(paper, list(PAPERS), "paper")


def one_of(value: str, choices: Sequence[str], what: str) -> str:
    """The value, which is one of those known.

    Raises:
        UsageError: it is none of them.
    """
    if value not in choices:
        raise UsageError(f"no {what} {value!r}; expected {' or '.join(map(repr, choices))}")
    return value


def texts_of(values: Sequence[str], what: str) -> list[str]:
    """Several texts as a list.

    Raises:
        TypeError: it is one text, not several, or something else is among them.
    """
    if isinstance(values, str) or not isinstance(values, Iterable):
        raise TypeError(f"expected {what}, got {kind_of(values)}")
    texts = list(values)
    for each in texts:
        if not isinstance(each, str):
            raise TypeError(f"expected {what}, got {kind_of(each)}")
    return texts


def given_of(age: float | None, measurements: Measurements, *, needed: bool = True) -> dict[str, str | float]:
    """What is known of a person, by its name; the age in years.

    Raises:
        UsageError: nothing is, though it is ``needed``.
    """
    given = dict(cast("Mapping[str, str | float]", measurements))
    if age is not None:
        given["age"] = age
    if needed and not given:
        raise UsageError("say whom it is for: a measurement such as head_girth='52 cm', or age=6")
    return given


def several_of(texts: str | Sequence[str], what: str) -> list[str]:
    """One text or several as a list.

    Raises:
        TypeError: something else is among them.
    """
    return texts_of([texts] if isinstance(texts, str) else texts, what)


def gauge_of(gauge: str | Sequence[str]) -> list[str]:
    """The texts of a maker's swatches as a list.

    Raises:
        TypeError: something else is among them.
    """
    return several_of(gauge, "a gauge, such as '20 sts 15 rows over 20 cm'")


def kind_of(value: object) -> str:
    """The value's type and how it begins, for a message."""
    return f"{type(value).__name__}: {str(value)[:40]!r}"


def item_of(items: Mapping[_Key, _Item], key: _Key, otherwise: str) -> _Item:
    """The item of that key, or `UnknownNameError` with the text."""
    try:
        return items[key]
    except KeyError:
        raise UnknownNameError(otherwise) from None


def as_argument(problem: str) -> str:
    """A problem reported of an option, ``--head-girth: ...``, as one of an argument: ``head_girth: ...``."""
    option, colon, rest = problem.partition(":")
    return f"{option[2:].replace('-', '_')}{colon}{rest}" if option.startswith("--") else problem
