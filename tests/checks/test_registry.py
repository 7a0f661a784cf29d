import re
import subprocess
import sys
from dataclasses import fields
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks import EXPLAINED, EXPLANATIONS, FAMILIES, UnknownCodeError, check_size, explain
from schematics.checks.finding import Severity
from schematics.design.limits import LIMIT_FIELDS, Limits
from schematics.errors import SchematicsError
from schematics.wearer.body import Body, Origin
from tests.checks.cases import CHILD, make_case, spread
from tests.checks.gallery import gallery
from tests.examples import examples


def test_gallery_shows_every_verdict_that_is_declared_and_no_other() -> None:
    shown = {(each.code, each.severity) for case in gallery().values() for each in check_size(case)}
    declared = {(code, severity) for code, each in EXPLANATIONS.items() for severity in each.severities}
    assert shown == declared


def test_every_family_gives_its_own_codes_only_and_all_of_them_for_every_case() -> None:
    for label, case in gallery().items():
        for family in FAMILIES:
            given_codes = {each.code for each in family.check(case)}
            assert given_codes == {each.code for each in family.explanations}, (label, family.name)


def test_codes_are_unique_readable_and_share_their_family() -> None:
    codes = [each.code for family in FAMILIES for each in family.explanations]
    assert len(codes) == len(set(codes)) == len(EXPLANATIONS)
    for family in FAMILIES:
        assert len({each.code.split("-")[0] for each in family.explanations}) == 1
    assert all(re.fullmatch(r"[A-Z]+-[A-Z]+", code) for code in codes)


def test_the_limits_that_explanations_name_are_exactly_the_limits_there_are() -> None:
    named = {name for each in EXPLANATIONS.values() for name in each.limits}
    assert named == set(LIMIT_FIELDS) == {field.name for field in fields(Limits)}


@pytest.mark.parametrize("code", EXPLAINED)
def test_explanations_are_whole_sentences(code: str) -> None:
    each = explain(code)
    assert each.code == code
    assert not each.title.endswith(".")
    for words in (each.meaning, each.cure, each.origin.rstrip(".") + "."):
        assert words[0].isupper() or words == "common practice, no source."
        assert words.endswith(".")
        assert "  " not in words


def test_every_limit_says_what_it_does_and_where_it_comes_from() -> None:
    for name, field in LIMIT_FIELDS.items():
        assert field.metadata["words"]
        assert field.metadata["source"]
        assert field.metadata["length"] == name.endswith("_cm")


def test_explain_takes_small_letters() -> None:
    assert explain("neck-pass") is EXPLANATIONS["NECK-PASS"]


def test_unknown_code_suggests_codes_spelt_alike() -> None:
    with pytest.raises(
        UnknownCodeError, match=r"no finding has the code 'neck-pas'; did you mean NECK-PASS"
    ) as caught:
        explain("neck-pas")
    assert isinstance(caught.value, SchematicsError)


def test_unknown_code_unlike_any_lists_them_all() -> None:
    with pytest.raises(UnknownCodeError) as caught:
        explain("7")
    assert all(code in str(caught.value) for code in EXPLAINED)


def test_every_sentence_is_one_line_and_ends() -> None:
    for case in gallery().values():
        for each in check_size(case):
            assert re.fullmatch(r"[A-Z][^\n]*[.?]", each.sentence), each
            assert each.size == "4"


@pytest.mark.parametrize(
    ("body", "codes"),
    [
        (Body.HEAD_GIRTH, {"NECK-PASS"}),
        (Body.NECK_GIRTH, {"NECK-TIGHT"}),
        (Body.SHOULDER_BREADTH, {"NECK-SLIP"}),
        (Body.CENTRE_BACK_NECK_TO_WRIST, {"REACH-BAND", "SPREAD-ARMS"}),
        (Body.CHEST_GIRTH, {"GIRTH-EASE"}),
        (Body.ARMHOLE_DEPTH, {"GIRTH-EASE"}),
        (Body.HAND_GIRTH, {"ARM-PASS"}),
        (Body.WRIST_GIRTH, {"ARM-REST"}),
        (Body.NAPE_HEIGHT, {"HANG-KNEE"}),
        (Body.KNEE_HEIGHT, {"HANG-KNEE"}),
    ],
)
def test_a_missing_measurement_is_named_and_stops_nothing(body: Body, codes: set[str]) -> None:
    told = [each for each in check_size(make_case(body={body: None})) if each.severity is not Severity.GOOD]
    assert {each.code for each in told} == codes
    for each in told:
        assert each.severity is Severity.MIND
        assert f"{body.words.capitalize()} is not known" in each.sentence
        assert "cannot be checked: measure it" in each.sentence


def test_borrowed_values_are_marked_wherever_they_are_used() -> None:
    lent = {body: spread(v.low_cm, v.cm, v.high_cm, Origin.AGE_TABLE) for body, v in CHILD.items()}
    marked = {each.code for each in check_size(make_case(body=lent)) if "the age table" in each.sentence}
    assert marked == {
        "NECK-PASS", "NECK-TIGHT", "NECK-SLIP", "ARM-PASS", "ARM-REST", "REACH-BAND", "SPREAD-ARMS",
        "GIRTH-EASE", "HANG-KNEE", "HANG-WHERE",
    }  # fmt: skip
    assert not any("age table" in each.sentence for each in check_size(make_case()))


FIRST_IMPORTED = """
import importlib, sys
for module in ("schematics.checks", "schematics.checks.finding", "schematics.design.design"):
    for name in [name for name in sys.modules if name.partition(".")[0] == "schematics"]:
        del sys.modules[name]
    importlib.import_module(module)
"""


@pytest.mark.thorough
def test_each_module_can_be_the_first_one_imported() -> None:
    subprocess.run([sys.executable, "-c", FIRST_IMPORTED], check=True)


@examples(60)
@given(
    neck=st.integers(2, 90),
    more=st.integers(0, 200),
    rows=st.integers(1, 80),
    increase_every=st.integers(1, 9),
    panel_rows=st.integers(1, 120),
    from_front=st.integers(0, 200),
    stitches=st.integers(2, 60),
)
def test_every_check_always_gives_a_finding(neck: int, more: int, **counts: Any) -> None:
    given_codes = {each.code for each in check_size(make_case(neck=neck, hem=neck + more, **counts))}
    assert given_codes == set(EXPLANATIONS)
