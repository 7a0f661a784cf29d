"""What is taken where a question is not answered."""

from __future__ import annotations

import re
from typing import Any

from schematics.grading.draft import REGULAR
from schematics.reading.new.answers import ANY, AnswerError, Answers, read
from schematics.reading.new.questions import EXAMPLES, offered, questions
from schematics.units import Unit

_USUAL = {
    "unit": "cm",
    "increases": REGULAR,
    "yarn": "not chosen yet",
    "stitch": "half double crochet",
    "stretch": "20 % 10 %",
    "panel_swatch": "",
    "panel_stretch": "12 % 5 %",
    "multiple": ANY,
    "row_repeat": ANY,
    "rib_stitch": "single crochet in the back loop",
    "rib_swatch": "",
    "rib_stretch": "10 % 35 %",
    "sizes": "child/2, child/4, child/6, child/8, child/10",
    "fullness": "usual",
}
_LENGTHS = {
    "below_waist": ("10", "4"),
    "neck_ease": ("-2", "-3/4"),
    "panel_width": ("12", "4 3/4"),
    "neck_band": ("4", "1 1/2"),
    "arm_bands": ("7", "2 3/4"),
}
"""In centimetres and inches."""


def _title_of(stem: str) -> str | None:
    """A title made of the file's name; None where it would be none."""
    name = re.sub(r"[-_\s]+", " ", stem).strip().capitalize()
    try:
        return str(read("title", name if "poncho" in name.casefold() else f"{name} poncho", {}))
    except AnswerError:
        return None


def usual(key: str, so_far: Answers, stem: str) -> str | None:
    """What is taken where a question is not answered; None where it has to be.

    Args:
        key: the question's.
        so_far: the answers to the questions before it.
        stem: the name of the file without its ending.
    """
    if key == "title":
        return _title_of(stem)
    if key == "panel_stitch":
        return str(so_far["stitch"])
    if key == "construction":
        return next(iter(offered()))
    if key in _LENGTHS:
        lengths = {**_LENGTHS, **offered()[so_far["construction"]].usual_lengths}
        unit: Unit = so_far["unit"]
        return f"{lengths[key][unit is Unit.IN]} {unit.value}"
    settings = (setting for each in offered().values() for setting in each.settings)
    return _USUAL.get(key) or next((each.usual for each in settings if each.key == key), _USUAL.get(key))


def stand_in(key: str, so_far: Answers, stem: str) -> Any:
    """What is reckoned with where a question is not answered well: what is usual, or an example."""
    return read(key, usual(key, so_far, stem) or EXAMPLES.get(key, ""), so_far)


def completed(so_far: Answers, stem: str) -> dict[str, Any]:
    """The answers so far, and a `stand_in` for each that is to come."""
    answers = dict(so_far)
    for question in questions():
        key = question.key
        if key not in answers and question.asked_of(answers.get("construction")):
            answers[key] = stand_in(key, answers, stem)
    return answers
