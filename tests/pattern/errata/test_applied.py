"""Errata worked into the old pattern make it read as the new one, in every size that both have."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.document.document import plain
from schematics.errors import SchematicsError
from schematics.pattern.corrections import compare
from schematics.pattern.errata import versions
from schematics.pattern.errata.errata_report import errata_document
from schematics.pattern.errata.versions import compare_patterns
from schematics.pattern.written import written_pattern
from schematics.reading.design_file import read_design
from tests.examples import seeds, thorough
from tests.pattern.errata.old_pattern import corrected, written
from tests.shipped import shipped_design, shipped_results, shipped_text

DEMOS = ("tidepool", "saltmarsh", "driftwood", "first-draft", "sandpiper")
CHANGES = seeds([(DEMOS[(number + number // 5) % 5], 1 + number // 5) for number in range(20)], step=11)
"""Each demo with four changes; those that `make test` tries are of another demo each."""
COUNT = re.compile(r"(?<=: )\d+(?=[,}])")

Version = tuple[Design, tuple[Result, ...]]


@cache
def demo(name: str) -> Version:
    if thorough():
        return shipped_design(name), shipped_results(name)
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{name}.yaml"
        path.write_text(_text(name), "utf-8")
        design = read_design(path)
    return design, evaluate(design)


def _text(name: str) -> str:
    return shipped_text(name, *(("4", "8") if name == "first-draft" else ("2", "6", "8")))


def changed(name: str, seed: int, folder: Path) -> Version:
    """The demo with a few counts of its sizes changed; those that no garment can be made of are left out."""
    head, sizes = _text(name).split("\nsizes:\n", 1)
    for each in _tries(sizes, random.Random(f"{name} {seed}")):
        path = folder / f"{name}.yaml"
        path.write_text(f"{head}\nsizes:\n{each}", "utf-8")
        try:
            design = read_design(path)
            return design, evaluate(design)
        except SchematicsError:
            continue
    raise AssertionError("no change came out")


def _tries(sizes: str, chance: random.Random) -> Iterator[str]:
    counts = list(COUNT.finditer(sizes))
    for _ in range(200):
        told = sizes
        for match in sorted(chance.sample(counts, chance.randint(1, 3)), key=lambda each: -each.start()):
            count = max(1, int(match[0]) + chance.choice((-4, -2, -1, 1, 2, 4)))
            told = f"{told[: match.start()]}{count}{told[match.end() :]}"
        yield told


def check(old: Version, new: Version) -> list[str]:
    """Work the errata in and hold the result against the new version; gives what they say."""
    before, after = ([result.size.name for result in results] for _, results in (old, new))
    errata = errata_document(old[0], new[0], compare_patterns(*old, *new))
    pages = written(written_pattern(*old, new[0].terms), before)
    expected = written(written_pattern(*new), after)
    for size in (name for name in before if name in after):
        lines = {
            heading: [line.whole([size]) for line in lines if size in line.sizes]
            for heading, lines in expected.items()
        }
        assert corrected(pages, errata, size, before) == {
            heading: each for heading, each in lines.items() if each
        }
    said = [f"{plain(part.heading)}: {plain(each)}" for part in errata.sections for each in part.sentences]
    places = [each.partition(": read")[0] for each in said if ": read “" in each]
    assert len(places) == len(set(places)), "no line is corrected twice"
    return said


@pytest.fixture
def without_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spare the typesetting where a test is not about pages."""
    monkeypatch.setattr(versions, "_pages", lambda *_: {})


@pytest.mark.slow
@pytest.mark.parametrize("name", seeds(DEMOS))
def test_errata_worked_in_give_the_new_pattern_and_their_pages_are_no_part_of_it(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not thorough():
        monkeypatch.setattr(versions, "_pages", lambda document, _: dict.fromkeys(range(9999), 7))
    said = check(demo(name), changed(name, 0, tmp_path))
    assert any("Page 7, " in each for each in said) or thorough()


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
@pytest.mark.parametrize(("name", "seed"), CHANGES)
def test_so_do_those_of_other_changes(name: str, seed: int, tmp_path: Path) -> None:
    new = changed(name, seed, tmp_path)
    assert check(demo(name), new)
    if thorough():
        assert check(new, demo(name))


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
@pytest.mark.parametrize("name", seeds(["driftwood", "tidepool"]))
def test_every_finished_measurement_that_the_figures_correct_is_an_erratum(name: str, tmp_path: Path) -> None:
    """Both lists tell the same lengths of the same sizes."""
    old, new = demo(name), changed(name, 1, tmp_path)
    printed = {line.label for line in written(written_pattern(*old), [])["Finished measurements"]}
    found = {
        (size, each.place): each.new.partition(" cm")[0]
        for each in compare_patterns(*old, *new).corrections
        if each.part == "Finished measurements"
        for size in each.sizes
    }
    figures = {
        (size, each.name): f"{each.new}"
        for size, changes in compare(*old, *new).by_size.items()
        for each in changes
        if each.section == "Finished measurements" and each.unit == "cm" and each.name in printed
    }
    assert figures
    assert found.keys() == figures.keys()
    assert all(cm in re.findall(r"[\d.]+", found[place]) for place, cm in figures.items())


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.usefixtures("without_pages")
def test_a_pattern_with_one_size_fewer_or_more(tmp_path: Path) -> None:
    text = _text("tidepool")
    path = tmp_path / "tidepool.yaml"
    path.write_text(re.sub(r"  \"4\":\n(?:    .*\n)+", "", text), "utf-8")
    design = read_design(path)
    fewer = design, evaluate(design)
    check(demo("tidepool"), fewer)
    check(fewer, demo("tidepool"))
