"""A kind of body that says only what it must: whatever else the program asks has a default that works."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from schematics.design.design import Parts, Size
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.garment.constructions.body_steps import BodySteps
from schematics.garment.constructions.folded.folded import FOLDED
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.garment import Garment
from tests.examples import seeds
from tests.program import call
from tests.shipped import shipped_text

pytestmark = pytest.mark.seeds


class Bare(Construction):
    """A folded body that says nothing it need not say."""

    word = "bare"
    summary = "a folded body without its own words"
    body_counts = FoldedBody
    arm_counts = FoldedArms

    def build(self, size: Size, parts: Parts) -> Garment:
        return replace(FOLDED.build(size, parts), construction=self.word)

    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        return FOLDED.formulas(parts, settings)

    def body_steps(self, bodies: Sequence[Any]) -> BodySteps | None:
        return FOLDED.body_steps(bodies)

    def rows_worked(self, body: Any) -> tuple[tuple[int, int], ...]:
        return FOLDED.rows_worked(body)


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("bare")
    text = shipped_text("driftwood", "4", "8")
    assert "construction: folded" in text
    (folder / "bare.yaml").write_text(text.replace("construction: folded", "construction: bare"), "utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(CONSTRUCTIONS, "bare", Bare())
        patch.chdir(folder)
        yield folder


@pytest.mark.slow
@pytest.mark.parametrize(
    "command",
    seeds(
        [
            "check", "figures", "workings", "sensitivity", "coverage --ages 4-6", "yarn --have 200g",
            "fit --age 9 --head-girth 64cm", "progress --size 4 --rows 60 --measured 50cm 55cm",
        ],
        step=3,
    ),
)  # fmt: skip
def test_every_command_takes_it(place: Path, command: str) -> None:
    name, *options = command.split()
    if "--measured" in options:
        options = [each.removesuffix("cm") for each in options]
    result = call(name, "bare.yaml", *options)
    assert result.exit_code in (0, 1), result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)


def test_what_it_does_not_say_is_left_out(place: Path) -> None:
    by_hand = call("workings", "bare.yaml", "--size", "4").stdout
    assert "centre back, neck edge to hem" in by_hand
    assert "from the nape to the middle of the arm opening" not in by_hand
    assert "reach, nape to band edge" not in by_hand


def test_grading_finds_its_counts(place: Path) -> None:
    assert Bare().counts == FOLDED.counts
    assert Bare().keys == FOLDED.keys


def test_a_new_spec_cannot_be_started_of_it(place: Path) -> None:
    """It does not say how wide it is usually."""
    result = call("new", "new.yaml", "--construction", "bare", "--swatch", "19 sts 14 rows over 20 cm")
    assert result.exit_code == 2
    assert result.stderr.startswith("--construction: there is no construction 'bare'; ")
