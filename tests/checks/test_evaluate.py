"""From a design to results, and choosing among them."""

from __future__ import annotations

import pickle
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.evaluation import choose, evaluate, worst
from schematics.checks.finding import Finding, Severity
from schematics.design.design import Design
from schematics.errors import SchematicsError
from schematics.units import Unit
from schematics.wearer.body import WearerSpec
from tests.specs_for_tests import TIGHT_NECK, read


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path)


def test_every_size_in_the_order_of_the_spec(design: Design) -> None:
    results = evaluate(design)
    assert [result.size.name for result in results] == ["4", "6 years"]
    for result in results:
        assert result.findings
        assert {finding.size for finding in result.findings} == {result.size.name}
    assert results[0].garment.neck.edge_count == 60 + 12
    assert results[1].wearer.label == "chart row child/6"


def test_the_verdict_of_a_neck_no_head_passes_is_stop(tmp_path: Path) -> None:
    results = evaluate(read(tmp_path, TIGHT_NECK))
    assert [result.verdict for result in results] == [Severity.STOP, Severity.MIND]


def test_the_spec_changes_the_limits_the_checks_use(tmp_path: Path, design: Design) -> None:
    """Common practice lets the opening be 90 % of the shoulder breadth; this spec lets it be 200 %."""
    loose = replace(design, limits=replace(design.limits, neck_slip_fraction=2.0))
    for before, after in zip(evaluate(design), evaluate(loose), strict=True):
        severities = [
            next(each.severity for each in result.findings if each.code == "NECK-SLIP")
            for result in (before, after)
        ]
        assert severities == [Severity.MIND, Severity.GOOD]


def test_wearers_that_cannot_be_resolved_are_all_named_with_their_lines(design: Design) -> None:
    sizes = tuple(replace(size, wearer=WearerSpec(chart="child/5")) for size in design.sizes)
    with pytest.raises(SchematicsError) as caught:
        evaluate(replace(design, sizes=sizes))
    lines = str(caught.value).splitlines()
    assert [line.partition(" ")[0] for line in lines] == [f"{design.path}:{size.line}:" for size in sizes]


def test_words_are_put_together_once_when_they_are_first_read() -> None:
    asked: list[str] = []

    def words() -> str:
        asked.append("words")
        return "The body lies flat."

    found = Finding(code="FLAT-CIRCLE", severity=Severity.GOOD, size="4", place="body", words=words)
    assert not asked
    assert found.sentence == found.sentence == "The body lies flat."
    assert len(asked) == 1


@pytest.mark.slow
def test_findings_are_alike_where_they_say_the_same_and_pickled_they_still_do(design: Design) -> None:
    first, again, inches = (
        [finding for result in evaluate(each) for finding in result.findings]
        for each in (design, design, replace(design, unit=Unit.IN))
    )
    assert first == again == pickle.loads(pickle.dumps(again))
    assert [one == other for one, other in zip(first, inches, strict=True)] == [
        one.sentence == other.sentence for one, other in zip(first, inches, strict=True)
    ]
    assert first != inches


@given(st.lists(st.sampled_from(list(Severity))))
def test_worst(severities: list[Severity]) -> None:
    """A stop outweighs any number of others, and a mind any number of good ones."""
    expected = next((each for each in ("stop", "mind") if each in severities), "good")
    assert worst(severities) == expected


def test_choose_keeps_the_order_of_the_spec(design: Design) -> None:
    results = evaluate(design)
    assert choose(design, results, None) == results
    assert choose(design, results, ["6 years", "4", "4"]) == results
    assert choose(design, results, ["6 years"]) == results[1:]


@pytest.mark.parametrize(
    ("names", "said"), [(["8"], "'8'"), (["4", "8", "10", "8"], "'8' and '10'"), ([], "nothing")]
)
def test_choose_names_what_is_unknown(design: Design, names: list[str], said: str) -> None:
    with pytest.raises(SchematicsError) as caught:
        choose(design, evaluate(design), names)
    assert str(caught.value) == f"{design.path}: no size {said}; the sizes are 4, 6 years"
