"""What makers answer: read as the library reads it, or told beside its field."""

from __future__ import annotations

import re

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

import schematics
from schematics.design.design import Design
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.to_measure.asked_changes import NONE_ASKED
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import NotWearableError
from schematics.garment.constructions.base import counts_of
from schematics.library.web import maker_pages
from schematics.library.web.maker_answers import FIELDS, GRADED, OFFERED, AnswersError, read_order
from schematics.library.web.maker_pages import answer_page, not_ready, pattern_reply, questions_page
from schematics.wearer.body import Body
from tests.batch.test_customer_files import found, html_text
from tests.document.pdf_reading import reader
from tests.examples import ANY, examples, seeds
from tests.library.served import Service
from tests.shipped import shipped_design

CHILD = {"age": "6", "height": "118 cm", "head_girth": "52,5", "name": "Mara"}
GAUGE = {"stitches": "20", "rows": "15 1/2", "over": "20 cm"}

TYPED = st.one_of(
    st.sampled_from(
        ["6", "118 cm", "52,5", "20½ in", "4'2\"", "1.16 m", "18 months", "-3", "1/0", "0", "9" * 30]
    ),
    st.text(alphabet="0123456789 .,/'\"½cminft", max_size=12),
    st.text(ANY, max_size=40),
)


def told_of(given: dict[str, str]) -> dict[str, str]:
    try:
        read_order(shipped_design("tidepool"), given)
    except AnswersError as error:
        return error.by_field or {"nothing": ""}
    return {}


@pytest.mark.slow
@examples(100)
@given(given=st.dictionaries(st.sampled_from([*FIELDS]), TYPED, max_size=6))
def test_whatever_is_typed_is_an_order_or_told_beside_its_field(given: dict[str, str]) -> None:
    for field, sentence in told_of(given).items():
        assert field in {"", *FIELDS}
        assert sentence
        assert "\n" not in sentence
        assert not sentence.startswith("--")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("field", "typed", "told"),
    seeds(
        [
            ("age", "six", "expected an age such as 6, '18 months' or '1 1/2 years', got 'six'"),
            ("age", "600", "expected an age of 0 to 120 years"),
            ("head_girth", "20.5", "20.5 in?"),
            ("stitches", "many", "expected a number such as 20 or 9.5, got 'many'"),
            ("stitches", "400", "check the counts and the unit"),
            ("over", "3 q", "expected the unit cm, mm, m, in or ft"),
            ("over", "0", "expected more than 0"),
            (
                "stretch",
                "20 sts",
                "expected a stretch such as '20 % across, 8 % along, 3 pulls', got '20 sts'",
            ),
            ("stretch", "20 % up", "expected a stretch such as"),
            ("neck_band_swatch", "wide", "expected a gauge such as '20 sts 15 rows over 20 cm'"),
            ("ball_mass", "heavy", "heavy"),
            ("name", "Mara/..", "it cannot hold '/'"),
            ("name", "Mara 𝄞", "'𝄞' cannot be printed"),
            ("size", "7", "there is no such size"),
        ],
        step=3,
    ),
)
def test_what_is_wrong_stands_beside_its_field_and_what_was_typed_is_kept(
    tidepool_design: Design, field: str, typed: str, told: str
) -> None:
    page = answer_page(tidepool_design, {**CHILD, **GAUGE, field: typed})
    assert page.status == 422
    root = html5lib.parse(page.content.decode(), namespaceHTMLElements=False)
    problem = root.find(f".//*[@id='{field}-problem']")
    assert problem is not None
    assert told in "".join(problem.itertext()).replace("Expected", "expected").replace("There", "there")
    entry = root.find(f".//*[@id='{field}']")
    assert entry.get("aria-invalid") == "true"
    assert f"{field}-problem" in entry.get("aria-describedby")
    if field != "size":
        assert entry.get("value") == typed
    assert root.find(".//*[@id='height']").get("value") == "118 cm"
    assert found("\n".join(html_text(page.content))) == {}


@pytest.mark.parametrize(
    "wrong",
    [
        {"age": "six", "height": "300", "head_girth": "wide", "wrist_girth": "90"},
        {"stitches": "many", "rows": "9999", "height": "300"},
        {"rows": "many", "stitches": "9999", "name": "a/b", "size": "7", "ball_mass": "heavy"},
    ],
)
def test_all_wrong_answers_are_told_at_once(wrong: dict[str, str]) -> None:
    assert told_of({**CHILD, **wrong}).keys() == wrong.keys()


def test_changes_can_be_declined(tidepool_design: Design) -> None:
    assert read_order(tidepool_design, {**CHILD, "change": "none"}).changes == ("none",)
    assert read_order(tidepool_design, {**CHILD, "change": ""}).changes == ()
    assert told_of({**CHILD, "change": "some"}).keys() == {"change"}


def test_nothing_answered_is_told_at_the_first_question(tidepool_design: Design) -> None:
    with pytest.raises(AnswersError) as error:
        read_order(tidepool_design, {"name": "Mara"})
    assert [*error.value.by_field] == ["age"]


def test_the_form_asks_for_what_it_takes(tidepool_design: Design) -> None:
    """The bands are of one fabric, so they have one field."""
    root = html5lib.parse(questions_page(tidepool_design).content.decode(), namespaceHTMLElements=False)
    names = {each.get("name") for tag in ("input", "select") for each in root.iter(tag)}
    assert names == FIELDS.keys() - {Body.HIP_HEIGHT.value, "arm_bands_swatch", OFFERED}


def test_pulls_and_other_swatches_are_read_as_by_the_library(tidepool_design: Design) -> None:
    """All that can be advised to measure of a swatch has a field."""
    pulled, rib = "20 % across, 8 % along, 3 pulls", "20 sts 30 rows over 15 cm, 10 % across, 40 % along"
    order = read_order(
        tidepool_design,
        {**CHILD, **GAUGE, "stretch": pulled, "neck_band_swatch": rib, "arm_bands_swatch": "?"},
    )
    main, band = tidepool_design.parts.body.name, tidepool_design.parts.neck_band.name
    gauge = [f"{main}: 20 sts 15 1/2 rows over 20 cm {pulled}", f"{band}: {rib}"]
    assert order.parts == read_gauge(gauge, tidepool_design).parts
    assert order.parts is not None
    assert order.parts.body.stretch_pulls == 3
    assert order.parts.arm_bands.stretch_along == 0.4
    alone = read_order(tidepool_design, {**CHILD, "stretch": pulled}).parts
    assert alone == read_gauge([pulled], tidepool_design).parts


def test_what_is_wrong_of_several_swatches_is_told_at_once() -> None:
    wrong = {"stitches": "many", "stretch": "?", "neck_band_swatch": "?", "centre_panel_swatch": "0 sts"}
    assert told_of({**CHILD, **wrong}).keys() == wrong.keys()


@pytest.mark.slow
def test_counts_are_those_of_the_library(tidepool_design: Design) -> None:
    page = answer_page(tidepool_design, {**CHILD, **GAUGE})
    made = schematics.make_to_measure(
        tidepool_design,
        age=6,
        height="118 cm",
        head_girth="52.5 cm",
        gauge="20 sts 15.5 rows over 20 cm",
        name="Mara",
    )
    root = html5lib.parse(page.content.decode(), namespaceHTMLElements=False)
    assert root.find(".//title").text == "Tidepool poncho for Mara"
    tables = [[[*map(text, row)] for row in each.iter("tr")] for each in root.iter("table")]
    (counts,) = (rows for rows in tables if rows[0][1] == "yours")
    mine = {key: f"{value:g}" for key, value in counts_of(made.design.sizes[0]).items() if value is not None}
    assert [row[1] for row in counts[1:]] == [*mine.values()]
    said = "\n".join(html_text(page.content))
    assert found(said) == {}
    assert all(change.words in said for change in made.changes)


def text(cell: object) -> str:
    return "".join(cell.itertext())  # type: ignore[attr-defined]


@pytest.mark.slow
def test_the_pattern_comes_as_a_file_and_as_a_page(service: Service) -> None:
    pdf = service.ask("/tidepool.pdf", CHILD | {"paper": "letter"})
    assert pdf.status == 200
    assert pdf.headers["content-type"] == "application/pdf"
    assert pdf.headers["content-disposition"] == "attachment; filename*=UTF-8''tidepool%20Mara.pdf"
    pages = reader(pdf.content).pages
    assert [float(side) for side in pages[0].mediabox[2:]] == [612, 792]
    assert "Tidepool poncho for Mara" in pages[0].extract_text()
    page = service.ask("/tidepool.html", CHILD)
    assert "Tidepool poncho for Mara" in page.text
    assert "default-src 'none'" in page.headers["content-security-policy"]
    assert "script" not in page.headers["content-security-policy"]


@pytest.mark.slow
def test_what_cannot_be_worn_is_told_with_what_else_can_be_done(
    tidepool_design: Design, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none_made(*_: object) -> None:
        raise NotWearableError("Nothing small makes it right for this wearer: the head does not pass.")

    monkeypatch.setattr(maker_pages, "made_to_measure", none_made)
    page = answer_page(tidepool_design, CHILD)
    said = "\n".join(html_text(page.content))
    assert "the head does not pass" in said
    assert "Find all counts for this body" in said
    assert f'<input type="hidden" name="change" value="{GRADED}">' in page.content.decode()
    assert found(said) == {}
    inches = "\n".join(html_text(answer_page(tidepool_design, CHILD | {"height": "46"}).content))
    assert "46 cm is far below any height at the age of 6 years" in inches
    assert inches.index("far below") < inches.index("the head does not pass")
    again = "\n".join(html_text(answer_page(tidepool_design, CHILD | {"change": GRADED}).content))
    assert "Find all counts for this body" not in again
    assert "another poncho" in again
    assert pattern_reply(tidepool_design, CHILD, "pdf").media_type.startswith("text/html")


@pytest.mark.slow
def test_where_something_is_amiss_all_counts_can_be_found_anew(tidepool_design: Design) -> None:
    """The neck opening is more than nine tenths of a toddler's shoulders; a child of seven is fitted."""
    offer = "Find all counts for this body"
    toddler = {"age": "20 months", "height": "85", "head_girth": "51.5", "size": "2", "change": NONE_ASKED}
    page = answer_page(tidepool_design, toddler).content.decode()
    assert offer in page
    (form,) = (each for each in page.split("<form")[1:] if offer in each)
    asked = {key: toddler[key] for key in ("age", "height", "head_girth")} | {"change": GRADED}
    assert sorted(re.findall(r'name="(\w+)" value="([^"]*)"', form)) == sorted(asked.items())
    sure = {"age": "7", "shoulder_breadth": "33", "head_girth": "52", "size": "6", "change": NONE_ASKED}
    assert offer not in answer_page(tidepool_design, sure).content.decode()


@pytest.mark.slow
@pytest.mark.parametrize("change", ["", GRADED])
def test_what_is_made_only_where_it_is_asked_for_can_be_asked_for(
    tidepool_design: Design, change: str
) -> None:
    """One button makes what was offered, in counts of the library."""
    toddler = {"age": "20 months", "height": "85", "head_girth": "51.5"}
    toddler |= {"change": change} if change else {}
    unasked = made_to_measure(tidepool_design, read_order(tidepool_design, toddler))
    assert unasked.not_made is not None
    page = answer_page(tidepool_design, toddler).content.decode()
    (form,) = (each for each in page.split("<form")[1:] if "Make it with those changes" in each)
    asked = dict(re.findall(r'name="(\w+)" value="([^"]*)"', form))
    assert asked.keys() == {*toddler, OFFERED}
    made = made_to_measure(tidepool_design, read_order(tidepool_design, asked))
    assert counts_of(made.design.sizes[0]) == counts_of(unasked.not_made.after.at_gauge.size)
    again = answer_page(tidepool_design, asked).content.decode()
    assert "Make it with those changes" not in again
    (download,) = (each for each in again.split("<form")[1:] if "Get the pattern" in each)
    assert f'name="{OFFERED}"' in download


@pytest.mark.parametrize("typed", ["neck +x", "9", "; ;", "none; 1", "body rows 0", "x" * 200])
def test_changes_that_no_answer_offered_are_refused(tidepool_design: Design, typed: str) -> None:
    assert answer_page(tidepool_design, {**CHILD, OFFERED: typed}).status == 422


def test_a_design_that_lacks_something_is_not_ready() -> None:
    assert not_ready(shipped_design("tidepool")) == ""
    assert "washing and care" in not_ready(shipped_design("first-draft"))
