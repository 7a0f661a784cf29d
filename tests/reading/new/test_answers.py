"""What ``schematics new`` makes of answers, given, usual or guessed: the text of a spec."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from schematics.design.guessed import guessed
from schematics.errors import UsageError
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import parse_draft
from schematics.reading.new import spec_file
from schematics.reading.new.answers import READERS, read
from schematics.reading.new.questions import offered, questions
from schematics.reading.new.spec_text import size_names, spec_text
from schematics.reading.new.usual import usual
from schematics.wearer.rows import references
from tests.examples import examples
from tests.reading.new.calling import SWATCH

pytestmark = pytest.mark.usefixtures("place")


def test_a_file_that_comes_up_while_asking_stays(place: Path) -> None:
    answers = usual_answers("flared", "cm")
    text = spec_file.checked(Path("lake.yaml"), answers)
    (place / "lake.yaml").write_text("mine\n")
    with pytest.raises(UsageError, match="there is such a file already"):
        spec_file.write(Path("lake.yaml"), text, overwrite=False)
    assert (place / "lake.yaml").read_text() == "mine\n"


def usual_answers(construction: str, unit: str, **given: str) -> dict[str, Any]:
    answers: dict[str, Any] = {}
    given = {"construction": construction, "unit": unit, "swatch": SWATCH, **given}
    for question in questions():
        if question.asked_of(construction):
            text = given.get(question.key, usual(question.key, answers, "lake"))
            answers[question.key] = read(question.key, text, answers)
    return answers


def test_every_question_is_read_and_has_a_usual_answer_but_for_the_swatch() -> None:
    settings = {each.key for construction in CONSTRUCTIONS.values() for each in construction.settings}
    assert [question.key for question in questions() if question.key not in settings] == list(READERS)
    assert offered() == CONSTRUCTIONS
    for construction in CONSTRUCTIONS:
        for unit in ("cm", "in"):
            answers = usual_answers(construction, unit)
            spec = yaml.safe_load(spec_text(answers))
            intents = set(spec["grading"]["intent"])
            assert intents <= set(CONSTRUCTIONS[construction].keys)
    assert usual("swatch", {}, "lake") is None


def test_what_is_guessed_says_so_until_the_key_is_deleted() -> None:
    answers = usual_answers("flared", "cm", panel_stitch="crossed ripples", rib_stretch="9 % 30 %")
    text = spec_file.checked(Path("lake.yaml"), answers)
    fabrics = yaml.safe_load(text)["fabrics"]
    told = [
        f"{name}.{key}"
        for name, fabric in fabrics.items()
        for key, value in fabric.items()
        if isinstance(value, dict) and value.get("guessed")
    ]
    assert told == [
        "main.stretch", "panel.swatch", "panel.stretch", "panel.turning_chains", "rib.swatch",
    ]  # fmt: skip
    head = parse_draft(Path("lake.yaml"), text.encode()).head
    assert [each.key for each in guessed(head)] == [f"fabrics.{key}" for key in told]
    assert guessed(head)[-1].what == "gauge of the neck band and arm bands"
    confirmed = parse_draft(Path("lake.yaml"), text.replace(", guessed: true", "").encode()).head
    assert guessed(confirmed) == ()


def test_every_row_of_the_charts_can_be_a_size(place: Path) -> None:
    rows = references()
    names = size_names(rows)
    assert sorted(names.values()) == sorted(rows)
    answers = usual_answers("flared", "cm", sizes=", ".join(rows))
    assert yaml.safe_load(spec_file.checked(Path("lake.yaml"), answers))["sizes"].keys() == names.keys()


_TEXTS = st.text(
    st.characters(max_codepoint=255, categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=30
)


@pytest.mark.slow
@examples(15)
@given(
    title=_TEXTS.filter(lambda text: text.strip() and text.strip().isprintable()),
    stitches=st.integers(10, 340),  # with `over`, gauges that yarn has, and the ribbing guessed from them too
    rows=st.decimals(10, 400, places=1),
    over=st.integers(8, 77),  # with seven eighths more it is still under 200 cm
    eighths=st.integers(0, 7),
)
def test_what_is_typed_is_what_the_spec_says(
    title: str, stitches: int, rows: object, over: int, eighths: int
) -> None:
    height = f"{over} {eighths}/8 in" if eighths else f"{over} in"
    answers = usual_answers(
        "folded", "cm", title=title, swatch=f"{stitches} sts {rows} rows over {over} in x {height}"
    )
    spec = yaml.safe_load(spec_file.checked(Path("lake.yaml"), answers))
    assert spec["title"] == title.strip()
    swatch = spec["fabrics"]["main"]["swatch"]
    assert (swatch["stitches"], swatch["rows"]) == (stitches, float(str(rows)))
    assert (swatch["width"], swatch["height"]) == (f"{over} in", height)
