"""What is taken where a question is not answered."""

from __future__ import annotations

import re
from typing import Any

from schematics.reading.new.answers import AnswerError, Answers, read
from schematics.reading.new.questions import EXAMPLES, offered, questions
from schematics.units import Unit


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
    taken = next(question.usual for question in questions() if question.key == key)
    if not isinstance(taken, tuple):
        return taken
    unit: Unit = so_far["unit"]
    lengths = offered()[so_far["construction"]].usual_lengths.get(key, taken)
    return f"{lengths[unit is Unit.IN]} {unit.value}"


def assumed(key: str, so_far: Answers, stem: str) -> Any:
    """What is reckoned with where a question is not answered well: what is usual, or an example."""
    return read(key, usual(key, so_far, stem) or EXAMPLES.get(key, ""), so_far)


def completed(so_far: Answers, stem: str) -> dict[str, Any]:
    """The answers so far, and an `assumed` for each that is to come."""
    answers = dict(so_far)
    for question in questions():
        key = question.key
        if key not in answers and question.asked_of(answers.get("construction")):
            answers[key] = assumed(key, answers, stem)
    return answers
