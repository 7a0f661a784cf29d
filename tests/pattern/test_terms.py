"""US and UK names against the trade's published table, and that nothing is turned twice."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.terms import Terms
from schematics.pattern.sections.terms_used import stitches_named
from tests.pattern.designs import design_of, dressed_spec

CRAFT_YARN_COUNCIL = {
    "ch": ("chain", "ch", "chain"),
    "sl st": ("slip stitch", "ss", "slip stitch"),
    "sc": ("single crochet", "dc", "double crochet"),
    "hdc": ("half double crochet", "htr", "half treble"),
    "dc": ("double crochet", "tr", "treble"),
    "tr": ("treble crochet", "dtr", "double treble"),
    "dtr": ("double treble crochet", "trtr", "triple treble"),
    "sk": ("skip", "miss", "miss"),
}
"""Craft Yarn Council, "Crochet abbreviations" and "US to UK terms": from memory. The stem of the words."""

COUNCIL_US_ONLY = {
    "FPdc": "front post double crochet",
    "BPdc": "back post double crochet",
    "FPtr": "front post treble crochet",
    "BPtr": "back post treble crochet",
    "sc2tog": "single crochet 2 stitches together",
    "hdc2tog": "half double crochet 2 stitches together",
    "dc2tog": "double crochet 2 stitches together",
    "pc": "popcorn",
    "cl": "cluster",
    "puff": "puff stitch",
}
"""The same source, master list of abbreviations, from memory."""

PRINTED_UK = {
    "ch": "Chain",
    "dc": "Double crochet",
    "dc2tog": "Double crochet 2 stitches together",
    "dtr": "Double treble crochet",
    "FPtr": "Front post treble crochet",
    "htr": "Half treble crochet",
    "tr": "Treble crochet",
    "tr2tog": "Treble crochet 2 stitches together",
}
"""Abbreviations of a printed pattern book, read: "Shawls & Wraps", UK edition, 2015, page 9."""

PRINTED_PAIRS = (
    ("Chain (ch)", "Chain (ch)"),
    ("Slip stitch (ss)", "Slip stitch (ss)"),
    ("Single crochet (sc)", "Double crochet (dc)"),
    ("Half double crochet (hdc)", "Half treble crochet (htr)"),
    ("Double crochet (dc)", "Treble crochet (tr)"),
    ("Treble crochet (tr)", "Double treble crochet (dtr)"),
    ("Double treble crochet (dtr)", "Triple treble crochet (ttr)"),
)
"""US and UK terms side by side, read: "Crochet stitch, hook & yarn conversions", a yarn shop's chart.

It has ss in US terms too, and ttr for the council's trtr.
"""

BY_US = {stitch.abbreviation: stitch for stitch in STITCHES}


@pytest.mark.parametrize(("us", "row"), CRAFT_YARN_COUNCIL.items())
def test_the_councils_table(us: str, row: tuple[str, str, str]) -> None:
    us_words, uk, uk_words = row
    stitch = BY_US[us]
    assert stitch.words.startswith(us_words)
    assert Terms.US.abbreviation(stitch) == us
    assert Terms.UK.abbreviation(stitch) == uk
    assert Terms.UK.words(stitch).startswith(uk_words)


@pytest.mark.parametrize(("uk", "words"), PRINTED_UK.items())
def test_a_printed_uk_list(uk: str, words: str) -> None:
    (stitch,) = [each for each in STITCHES if Terms.UK.abbreviation(each) == uk]
    assert Terms.UK.words(stitch) == words.lower().replace(" stitches together", " together")


@pytest.mark.parametrize(("us", "uk"), PRINTED_PAIRS)
def test_a_printed_table_of_both_terms(us: str, uk: str) -> None:
    us_words, us_short = us.lower().removesuffix(")").split(" (")
    uk_words, uk_short = uk.lower().removesuffix(")").split(" (")
    stitch = BY_US[{"ss": "sl st"}.get(us_short, us_short)]
    assert stitch.words == us_words
    assert Terms.UK.words(stitch) == uk_words
    assert Terms.UK.abbreviation(stitch) == {"ttr": "trtr"}.get(uk_short, uk_short)
    assert Terms.UK.text(us_words) == uk_words


@pytest.mark.parametrize(("us", "words"), COUNCIL_US_ONLY.items())
def test_the_councils_us_list(us: str, words: str) -> None:
    assert BY_US[us].words.startswith(words.replace(" stitches together", " together"))


_HEIGHTS = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr", "trtr": "quadtr"}
_ANY = "(sc|hdc|dc|tr|dtr|trtr)"
_MADE = rf"(?P<before>FP|BP|e|[2-9]-|){_ANY}(?P<after>[2-9]tog| cl| bo| pc| sh|)"


def test_every_stitch_of_the_program_is_in_one_of_the_lists_or_made_of_one_in_them() -> None:
    """Post, extended and several-in-one stitches are named by those they are made of (common practice, no
    source).
    """
    follow = {"bo", "sh", "V-st", "picot"} | {f"{number}-loop puff" for number in range(2, 10)}
    made = {us for us in BY_US if re.fullmatch(_MADE, us)}
    assert set(BY_US) == CRAFT_YARN_COUNCIL.keys() | COUNCIL_US_ONLY.keys() | follow | made


def test_compound_names_follow_the_plain_ones() -> None:
    """In UK terms, too, whatever is made of a stitch is named by it; an extended one by ``ex``."""
    for us, stitch in BY_US.items():
        if match := re.fullmatch(_MADE, us):
            before = {"e": "ex"}.get(match["before"], match["before"])
            assert Terms.UK.abbreviation(stitch) == before + _HEIGHTS[match[2]] + match["after"]


@pytest.mark.parametrize(
    ("before", "after"),
    [("", ""), ("2 ", "; turn"), ("[ch 1, ", "] 3 times"), ("(", ") in next st"), ("*", ".")],
)
def test_every_stitch_turns_to_its_uk_name_wherever_it_stands(before: str, after: str) -> None:
    us, uk = (
        [
            f"{before}{words}{after}"
            for each in STITCHES
            for words in (terms.abbreviation(each), terms.words(each))
        ]
        for terms in Terms
    )
    assert [Terms.UK.text(text) for text in us] == uk


def test_a_definition_names_the_same_stitches_in_both_terms() -> None:
    """Word by word: the heights of one text are those of the other, one name up."""
    names = r"\b(sc|hdc|htr|dc|tr|dtr|trtr|quadtr)\b"
    defined = [each for each in STITCHES if each.definition]
    assert defined
    for each in defined:
        us, uk = (re.findall(names, terms.text(each.definition)) for terms in Terms)
        assert [_HEIGHTS[name] for name in us] == uk, each.abbreviation


def test_no_uk_abbreviation_stands_for_two_stitches() -> None:
    names = [Terms.UK.abbreviation(stitch) for stitch in STITCHES]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("single crochet", "double crochet"),
        ("half double crochet", "half treble crochet"),
        ("double crochet", "treble crochet"),
        ("treble crochet", "double treble crochet"),
        ("double treble crochet", "triple treble crochet"),
        ("single crochet, then double crochet", "double crochet, then treble crochet"),
        ("crossed trebles", "crossed double trebles"),
        ("Single Crochet", "Double Crochet"),
        ("Half double crochet", "Half treble crochet"),
        ("hdc, (2 FPdc, 2 hdc) across, hdc", "htr, (2 FPtr, 2 htr) across, htr"),
        ("sc blo across", "dc blo across"),
        ("Sc in 2nd ch, turn. Sl st in next st.", "Dc in 2nd ch, turn. Ss in next st."),
        ("pass over the 2 sl sts", "pass over the 2 ss"),
        ("sc, sk, ch, sl st across", "dc, miss, ch, ss across"),
        ("yarn over and draw up a loop", "yarn over hook and draw up a loop"),
        ("skip 2, check the gauge", "miss 2, check the tension"),
        ("raised ripple stitch", "raised ripple stitch"),
        ("treatment of double moss, strict", "treatment of double moss, strict"),
    ],
)
def test_texts_are_turned_once(us: str, uk: str) -> None:
    assert Terms.UK.text(us) == uk
    assert Terms.US.text(us) == us


@given(st.lists(st.sampled_from(STITCHES), min_size=1, max_size=8), st.booleans())
def test_a_list_of_stitches_is_turned_stitch_by_stitch(stitches: list[object], short: bool) -> None:
    us, uk = (
        ", ".join(terms.abbreviation(each) if short else terms.words(each) for each in stitches)  # type: ignore[arg-type]
        for terms in (Terms.US, Terms.UK)
    )
    assert Terms.UK.text(us) == uk


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("half double crochet in the back loop", ["hdc"]),
        ("cables of front post double crochet on a ground of half double crochet", ["FPdc", "hdc"]),
        ("crossed trebles", ["tr"]),
        ("double treble and Single  Crochets", ["dtr", "sc"]),
        ("hdc and FPtr ribs", ["hdc", "FPtr"]),
        ("raised ripple stitch", []),
    ],
)
def test_stitches_named_in_a_text(text: str, named: list[str]) -> None:
    assert [stitch.abbreviation for stitch in stitches_named(text)] == named


@pytest.mark.slow
@pytest.mark.parametrize("number", range(9))
def test_uk_figures_name_no_us_stitch(number: int) -> None:
    """``single crochet``, ``hdc``, ``sc`` and ``skip`` are US only; the last column tells the US names."""
    from schematics.checks.evaluation import evaluate
    from schematics.document.writers import file_content
    from schematics.pattern import figures

    design = design_of(dressed_spec(number), number)
    text = file_content(figures(design, evaluate(design), Terms.UK), "md").decode()
    ours, _, abbreviations = text.partition("## Abbreviations")
    us_only = re.compile(r"\b(single crochet|half double|hdc|sc|skip|gauge)\b", re.IGNORECASE)
    assert not us_only.search(ours)
    for line in abbreviations.partition("## ")[0].splitlines():
        if line.startswith("| ") and "in US terms" not in line:
            assert not us_only.search(line.rsplit("|", 2)[0]), line
