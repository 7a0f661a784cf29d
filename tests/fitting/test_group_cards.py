"""A class or club: balls by sums of their own, and cards that a maker cuts out, read back from the PDF."""

from __future__ import annotations

import io
import math
import re
from fractions import Fraction
from pathlib import Path

import html5lib
import pytest
from pypdf import PdfReader

from schematics.checks.certainty import chance_words
from schematics.checks.check_names import check_name
from schematics.document.document import cell_words, plain
from schematics.errors import UsageError
from schematics.fitting import group_cards
from schematics.fitting.advice_words import NOT_HERS
from schematics.fitting.fit_report import fitting_document
from schematics.fitting.fitting import fitting
from schematics.fitting.group import GroupFit, group_fit
from schematics.fitting.group_cards import HELD_AGAINST, cards_document, unprinted_names
from schematics.fitting.group_file import read_group
from schematics.fitting.group_report import rows
from schematics.fitting.group_yarn import group_yarn
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.fitting.children import SPECS, demo
from tests.program import call

TIDEPOOL = demo("tidepool")
LONG = "Wolfeschlegelsteinhausenbergerdorffwelchevoralternwarengewissenhaftschaferswess"
MARKUP = '<b>#strong[Bo]|</b> & "S\'ö"'
LINES = ["name,age,head_girth,height", "Ann,6,52.5,118", '"{}",4,51,'.format(MARKUP.replace('"', '""'))]
LINES += [f"{LONG},9,54,", "Small,0.2,,", ",6,52,117", "Bo,6,52,46"]


@pytest.fixture(scope="module")
def children(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("class") / "class.csv"
    path.write_text("\n".join(LINES), "utf-8")
    return path


@pytest.fixture(scope="module")
def fitted(children: Path) -> GroupFit:
    return group_fit(TIDEPOOL, TIDEPOOL.sizes, read_group(children, TIDEPOOL.unit))


@pytest.mark.slow
def test_balls_are_whole_for_each_or_for_all(fitted: GroupFit) -> None:
    """Balls of 100 g: rounded up for each poncho, or once for all of them."""
    counts = fitted.counts(TIDEPOOL)
    (yarn,) = group_yarn(TIDEPOOL, counts, fitted.could_take)
    assert TIDEPOOL.yarn.ball_mass_g == 100
    masses = [(each.wearers, Fraction(each.need.buy_g or 0)) for each in counts]
    assert yarn.own == sum(many * math.ceil(grams / 100) for many, grams in masses)
    assert yarn.pooled == math.ceil(sum(many * grams for many, grams in masses) / 100)
    assert yarn.pooled <= yarn.own
    assert sum(many for many, _ in masses) == int(fitted.fits.sum())
    balls = {each.name: each.need.colours[0].balls or 0 for each in counts}
    of_each = [
        [balls[size] for size in (str(row["size"]), *row["could_also_be"])]
        for row in rows(fitted)
        if row["size"] is not None
    ]
    assert (yarn.least, yarn.most) == (sum(map(min, of_each)), sum(map(max, of_each)))


def test_the_list_says_who_is_left_out_and_between_what_the_balls_may_be(tmp_path: Path) -> None:
    """Of a head alone nobody knows the size."""
    path = tmp_path / "class.csv"
    path.write_text("Name;Alter;Kopfumfang;Körpergröße\nPino;6;52,5;118\nOle;;51;\nKim;8;52;999\n", "utf-8")
    told = " ".join(call("fit", SPECS / "tidepool.yaml", "--group", path).stdout.split())
    assert "2 wearers - Kim (line 4) is left out: Körpergröße: expected 41 cm to 231 cm, got 999 cm" in told
    balls = re.search(r"all (\d+) By the sizes that are left open it may be (\d+) to (\d+) balls\.", told)
    assert balls is not None
    counted, least, most = map(int, balls.groups())
    assert least <= counted <= most
    assert least < most


def test_a_card_says_what_the_list_says(fitted: GroupFit) -> None:
    document = cards_document(TIDEPOOL, fitted, lettered=True)
    assert len(document.sections) == len(fitted.group.names)
    for place, card in enumerate(document.sections):
        name = fitted.group.names[place] or "Child in line 6 of the list"
        size = fitted.sizes[int(fitted.judged.best[place])].name
        fits = bool(fitted.fits[place])
        assert card.heading == f"{name}: {f'size {size}' if fits else 'no size as it is'}"
        words = " ".join(map(str, card.sentences))
        decided = (fitted.deciding or {}).get(place)
        first = f"To be sure, measure the {decided.body.words}: it settles " if decided else "To be sure"
        assert (first in words) is (decided is not None)
        for code, chance in (fitted.chances or {}).get(place, {}).items():
            assert f"{check_name(code)} ({chance_words(chance)} hold)" in words
        assert all(each in words for each in fitted.questions.get(place + 2, ()))
        assert ("No size fits as it is" in words) is not fits
        assert ("Yarn: " in words) is fits
        assert "no cords, ties, tassels or fringe at the neck" in words
        assert words.endswith("Local rules and your own judgement come first.")
        assert not re.search(r"[A-Z]{3,}-[A-Z]|--|\.yaml", words), "makers see no codes or commands"


def test_a_card_says_where_the_poncho_comes(fitted: GroupFit) -> None:
    """By which of the two lengths is the larger: a band that reaches farther than the wrist is past it."""
    larger = ("to spare", "to spare", "past the wrist", "below the knee", "below the waist")
    smaller = ("too tight", "too tight", "above the wrist", "above the knee", "above the waist")
    seen = set()
    for card in cards_document(TIDEPOOL, fitted, lettered=True).sections:
        (table,) = card.tables
        for row in table.rows:
            name, poncho, child, words = (plain(cell_words(cell)) for cell in row)
            (place,) = (at for at, code in enumerate(HELD_AGAINST) if HELD_AGAINST[code][0] == name)
            more = float(poncho) - float(child)
            assert words.endswith((larger if more > 0 else smaller)[place]), (card.heading, name)
            assert float(words.split(" ")[0]) == pytest.approx(abs(more), abs=0.11)
            seen.add(words.partition(" ")[2])
    assert seen >= {"to spare", "past the wrist", "above the wrist", "above the knee", "below the waist"}


def test_a_size_that_is_not_hers_is_no_childs_in_the_list(tmp_path: Path) -> None:
    """Size 10 ends 18.2 cm above the wrist: the list, the card and `fit` say that none fits."""
    path = tmp_path / "class.csv"
    path.write_text("name,age,centre_back_neck_to_wrist\nKim,13,78\n", "utf-8")
    sizes = tuple(size for size in TIDEPOOL.sizes if size.name == "10")
    fitted = group_fit(TIDEPOOL, sizes, read_group(path, TIDEPOOL.unit))
    alone = fitting(
        TIDEPOOL, sizes, resolve(WearerSpec(age_years=13, own={Body.CENTRE_BACK_NECK_TO_WRIST: 78.0}), "Kim")
    )
    assert alone.advised.verdict == "mind"
    assert not alone.wearable
    (row,) = rows(fitted)
    assert (row["size"], row["nearest"], row["not_hers"]) == (None, "10", True)
    assert sum(each.wearers for each in fitted.counts(TIDEPOOL)) == 0
    told = fitting_document(TIDEPOOL, alone, None, show_all=False)
    (card,) = cards_document(TIDEPOOL, fitted, lettered=True).sections
    no_size = "No size fits as it is; size 10 comes nearest."
    assert no_size in [str(section.heading) for section in told.sections]
    assert no_size in card.sentences
    assert NOT_HERS.format(size="10") in card.sentences


@pytest.mark.slow
def test_a_name_of_other_letters_is_not_lost(tmp_path: Path) -> None:
    """The page shows it; a print says the line and asks for it by hand. Accents typed apart are letters."""
    path = tmp_path / "class.csv"
    path.write_text("name,age\n\u674e\u96f7,6\nZoe\u0308,6\n", "utf-8")
    fitted = group_fit(TIDEPOOL, TIDEPOOL.sizes[2:3], read_group(path, TIDEPOOL.unit))
    printed, shown = (
        [
            str(card.heading).partition(":")[0]
            for card in cards_document(TIDEPOOL, fitted, lettered=each).sections
        ]
        for each in (True, False)
    )
    assert shown == ["\u674e\u96f7", "Zoe\u0308"]
    assert printed == ["Child in line 2 of the list", "Zoe\u0308"]
    first = cards_document(TIDEPOOL, fitted, lettered=True).sections[0]
    assert str(first.blocks[0]) == "The name has letters that cannot be printed here: write it in by hand."
    told = unprinted_names(fitted.group.names, fitted.group.lines.tolist())
    assert told.startswith("a name cannot be printed in a PDF, which has Latin, ")
    assert " in line 2: " in told


@pytest.mark.slow
def test_no_card_is_cut_by_the_end_of_a_page(children: Path, tmp_path: Path) -> None:
    """Each name stands on the page of the last line of its card, and several cards on one."""
    many = tmp_path / "many.csv"
    rows = [f"Child{number},{3 + number % 7},{50 + number % 5}," for number in range(11)]
    many.write_text("\n".join([*LINES, *rows]), "utf-8")
    file = tmp_path / "cards.pdf"
    told = call("fit", SPECS / "tidepool.yaml", "--group", many, "--cards", file)
    assert told.stderr == ""
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(file.read_bytes())).pages]
    flat = ["".join(text.replace("\u200b", "").split()) for text in pages]
    assert 3 < len(pages) < 10
    for name in ("Ann", LONG, "".join(MARKUP.split()), *(f"Child{number}" for number in range(11))):
        (page,) = (text for text in flat if f"{name}:size" in text)
        following = page[page.index(f"{name}:size") :]
        card = following[: following.index("Yarn:")]
        assert card.count(":size") == 1
        assert "neckopening,stretched,andhead" in card


@pytest.mark.slow
def test_the_page_shows_names_as_they_are(children: Path, tmp_path: Path) -> None:
    file = tmp_path / "cards.html"
    call("fit", SPECS / "tidepool.yaml", "--group", children, "--cards", file)
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    page = parser.parse(file.read_text("utf-8"))
    headings = ["".join(each.itertext()) for each in page.iter("h2")]
    assert any(each.startswith(f"{MARKUP}: size") for each in headings)
    assert not list(page.iter("b"))
    cut = [each for each in page.iter("section") if each.get("class") == "cut-out"]
    assert len(cut) == len(LINES) - 1


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        (
            ["--age", "6", "--cards", "c.pdf"],
            "--cards writes the cards of a group; name its file with --group",
        ),
        (["--group", "GROUP", "--cards", "c.txt"], "--cards: expected a file that ends in .pdf or .html"),
    ],
)
def test_what_cannot_be_written_is_told(children: Path, arguments: list[str], problem: str) -> None:
    told = call(
        "fit", SPECS / "tidepool.yaml", *[str(children) if each == "GROUP" else each for each in arguments]
    )
    assert told.exit_code == 2
    assert problem in told.stderr


@pytest.mark.slow
def test_a_group_may_be_too_large_for_cards(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(group_cards, "MOST_CARDS", 2)
    path = tmp_path / "many.csv"
    path.write_text("age\n" + "6\n" * 3, "utf-8")
    fitted = group_fit(TIDEPOOL, TIDEPOOL.sizes[2:3], read_group(path, TIDEPOOL.unit))
    with pytest.raises(UsageError, match="expected 2 wearers at most, got 3"):
        cards_document(TIDEPOOL, fitted, lettered=True)


@pytest.mark.slow
def test_where_no_line_can_be_used_it_is_said_of_each_why(tmp_path: Path) -> None:
    """Kelp is in inches: 118 in are no child's height."""
    path = tmp_path / "metric.csv"
    path.write_text("name,height\nPip,118\nTam,125\n", "utf-8")
    told = call("fit", SPECS / "kelp.yaml", "--group", str(path), "--cards", str(tmp_path / "cards.pdf"))
    assert told.exit_code == 2
    assert [line.partition(": ")[0].rpartition(":")[2] for line in told.stderr.splitlines()[:2]] == ["2", "3"]
    assert "no line of the list can be used" in told.stderr
    assert not (tmp_path / "cards.pdf").exists()
