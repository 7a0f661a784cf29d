"""The stitches of the trade: names in US and UK terms, what they use and make, what a word may mean."""

from __future__ import annotations

import re

import pytest

from schematics.crochet.stitch_list import STITCHES, TRADE
from schematics.crochet.stitches import Height, StitchBook
from schematics.crochet.symbols import COUNTED, MOST_STROKES, Stroke, StrokeKind, read_symbol
from tests.examples import thorough

UK = StitchBook(STITCHES, uk=True)
SINGLES = {
    "ch": (0, 1), "sk": (1, 0), "picot": (0, 0), "sl st": (1, 1), "sc": (1, 1), "hdc": (1, 1), "dc": (1, 1),
    "tr": (1, 1), "dtr": (1, 1), "trtr": (1, 1), "esc": (1, 1), "ehdc": (1, 1), "edc": (1, 1), "etr": (1, 1),
    "FPsc": (1, 1), "FPhdc": (1, 1), "FPdc": (1, 1), "FPtr": (1, 1), "FPdtr": (1, 1),
    "BPsc": (1, 1), "BPhdc": (1, 1), "BPdc": (1, 1), "BPtr": (1, 1), "BPdtr": (1, 1),
    "V-st": (1, 3), "cl": (1, 1), "bo": (1, 1), "pc": (1, 1), "sh": (1, 5), "puff": (1, 1),
}  # fmt: skip
"""The Craft Yarn Council's lists of abbreviations and special stitches for flat work, from
memory. A stitch worked into one stitch uses it, a chain uses none, a skipped one makes none."""
UK_NAMES = {
    "sl st": "ss", "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr", "trtr": "quadtr",
    "sk": "miss", "FPsc": "FPdc", "FPhdc": "FPhtr", "FPdc": "FPtr", "FPtr": "FPdtr", "FPdtr": "FPtrtr",
    "BPdc": "BPtr", "sc2tog": "dc2tog", "hdc3tog": "htr3tog", "dc2tog": "tr2tog", "tr4tog": "dtr4tog",
    "5-dc pc": "5-tr pc", "4-tr bo": "4-dtr bo", "3-hdc cl": "3-htr cl", "7-dc sh": "7-tr sh",
    "FPdc2tog": "FPtr2tog", "BPtr3tog": "BPdtr3tog", "FPsc2tog": "FPdc2tog",
    "3-loop puff": "3-loop puff", "ch": "ch", "V-st": "V-st", "bo": "bo", "pc": "pc",
}  # fmt: skip
"""US abbreviations and UK ones (the Craft Yarn Council's table of terms, from memory)."""


def counts_by_name(name: str) -> tuple[int, int]:
    """By the name alone: so many together use so many, a shell of so many makes so many."""
    if together := re.fullmatch(r"(?:sc|hdc|dc|tr)(\d)tog|[FB]P(?:sc|hdc|dc|tr)([23])tog", name):
        return int(together[1] or together[2]), 1
    if shell := re.fullmatch(r"(\d)-(?:hdc|dc|tr|dtr) sh", name):
        return 1, int(shell[1])
    assert re.fullmatch(r"\d-(?:hdc|dc|tr|dtr) (?:cl|bo|pc)|\d-loop puff", name), name
    return 1, 1


def test_the_trades_list() -> None:
    table = {each.abbreviation: (each.uses, each.makes) for each in STITCHES}
    assert len(table) == len(STITCHES)
    assert {name: table[name] for name in SINGLES} == SINGLES
    families = {name: counts for name, counts in table.items() if name not in SINGLES}
    assert families == {name: counts_by_name(name) for name in families}
    for number in range(2, 10):
        together = {f"{name}{number}tog" for name in ("sc", "hdc", "dc", "tr")}
        tall = {
            f"{number}-{name} {kind}"
            for name in ("hdc", "dc", "tr", "dtr")
            for kind in ("cl", "bo", "pc", "sh")
        }
        assert {*together, *tall, f"{number}-loop puff"} <= set(families)


def test_both_names_of_a_stitch() -> None:
    for us, uk in UK_NAMES.items():
        stitch = TRADE.find(us)
        assert stitch
        assert (TRADE.name(stitch), UK.name(stitch)) == (us, uk)
        assert UK.find(uk) is stitch
        assert TRADE.find(us.upper()) is TRADE.find(us.lower()) is stitch
    uk_names = [UK.name(each).casefold() for each in STITCHES]
    assert len(set(uk_names)) == len(uk_names)


def test_where_stitches_are_worked() -> None:
    """Round a post: FP and BP alone. No post: what stands no higher than a slip stitch, or is not there."""
    for stitch in STITCHES:
        name = stitch.abbreviation
        assert (stitch.post == "front", stitch.post == "back") == (
            name.startswith("FP"),
            name.startswith("BP"),
        )
        assert stitch.has_post == (name not in ("ch", "sk", "picot", "sl st"))
        assert stitch.loops == (not stitch.post and name not in ("ch", "sk", "picot", "V-st"))
        assert (stitch.definition == "") == (name in ("ch", "sk", *(each.us for each in Height)))


def test_symbols_tell_stitches_apart() -> None:
    """All but the short names, which stand for one of a family; a skipped stitch has none."""
    short = ("cl", "bo", "pc", "sh", "puff")
    symbols = {each.abbreviation: each.symbol for each in STITCHES if each.abbreviation not in short}
    assert symbols.pop("sk") == ()
    assert len(set(symbols.values())) == len(symbols)
    for name, full in zip(short, ("3-dc cl", "5-dc bo", "5-dc pc", "5-dc sh", "3-loop puff"), strict=True):
        assert (found := TRADE.find(name))
        assert found.symbol == symbols[full]


@pytest.mark.parametrize(
    ("text", "strokes"),
    [
        ("stem, cap, 2 bars", [Stroke(StrokeKind.STEM), Stroke(StrokeKind.CAP), Stroke(StrokeKind.BARS, 2)]),
        ("Stem,1 BAR", [Stroke(StrokeKind.STEM), Stroke(StrokeKind.BARS)]),
        ("3  legs , hook  right", [Stroke(StrokeKind.LEGS, 3), Stroke(StrokeKind.HOOK_RIGHT)]),
    ],
)
def test_symbols_are_read(text: str, strokes: list[Stroke]) -> None:
    assert list(read_symbol(text)) == strokes
    assert read_symbol(", ".join(map(str, strokes))) == tuple(strokes)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("star", "'star' is no stroke of a symbol; expected oval, dot, cross, stem, "),
        ("stem,", "'' is no stroke of a symbol; expected oval, dot, cross, stem, "),
        ("2 caps", "'2 caps' is no stroke of a symbol; expected oval, dot, cross, stem, "),
        ("2 cap", "'cap' takes no number; expected 'cap' alone"),
        ("10 bars", "expected 1 to 9 bars, got 10"),
        ("0 legs", "expected 1 to 9 legs, got 0"),
    ],
)  # fmt: skip
def test_other_symbols_are_refused(text: str, sentence: str) -> None:
    with pytest.raises(ValueError, match=re.escape(sentence)):
        read_symbol(text)
    assert StrokeKind.CAP not in COUNTED
    assert MOST_STROKES == 9


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("htr", ["hdc"]), ("ss", ["sl st"]), ("miss", ["sk"]), ("skip", ["sk"]), ("slst", ["sl st"]),
        ("Double Crochet", ["dc"]), ("back post treble crochet", ["BPtr"]), ("popcorn", ["pc"]),
        ("ps", ["puff"]), ("FPdcc", ["FPdc"]), ("fpd", []), ("zzz", []), ("sc1tog", []),
        ("rsc", []), ("fsc", []), ("ldc", []), ("ssc", []), ("ttr", []), ("rdc", []), ("exdc", []),
        ("hc", []), ("FPdc9tog", []), ("dc2tgo", ["dc2tog"]), ("5 dc bo", ["5-dc bo"]), ("v st", ["V-st"]),
        ("front post dc", ["FPdc"]), ("extended dc", ["edc"]), ("pico", ["picot"]), ("sl st st", []),
    ],
)  # fmt: skip
def test_what_an_unknown_word_may_stand_for(word: str, meant: list[str]) -> None:
    assert TRADE.near(word) == meant
    assert TRADE.find(word) is None


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("hdc", ["htr"]),
        ("sc", ["dc"]),
        ("sl st", ["ss"]),
        ("skip", ["miss"]),
        ("FPhdc", ["FPhtr"]),
        ("edc", []),
        ("extended dc", ["exdc"]),
        ("front post dc", ["FPdc"]),
        ("sc2tog", ["dc2tog"]),
    ],
)
def test_what_a_us_name_stands_for_in_uk_terms(word: str, meant: list[str]) -> None:
    assert UK.near(word) == meant


@pytest.mark.slow
@pytest.mark.seeds
def test_what_is_meant_is_never_of_another_height() -> None:
    """A name with a letter left out, doubled or put before it: what is offered has the height that is typed.

    And it goes round a post or into a top as the word says. Heights typed from the trade's list.
    """
    others = map(TRADE.find, ("FPdc2tog", "BPtr3tog", "hdc4tog", "5-dc bo"))
    stitches = (*STITCHES[: 40 : 1 if thorough() else 4], *others)
    for book, heights in ((TRADE, ("dtr", "hdc", "tr", "dc", "sc")), (UK, ("dtr", "htr", "tr", "dc"))):
        for stitch in stitches:
            assert stitch
            name = book.name(stitch)
            slips = [f"{letter}{name}" for letter in "rflsb"]
            for place in range(len(name)):
                slips += [name[:place] + name[place + 1 :], name[: place + 1] + name[place:]]
            for word in slips:
                for near in book.near(word):
                    typed = [each for each in heights if each in word.lower()][:1]
                    assert typed == [each for each in heights if each in near.lower()][:1], (word, near)
                    assert (near[:2] in ("FP", "BP")) == bool(re.search("[fb]p", word.lower())), (word, near)


def test_the_basics_leave_one_loop_on_the_hook() -> None:
    """Counted from the words: a yarn over adds a loop and so does one pulled up, a pull-through ends them.

    A treble takes a yarn over more than a double crochet, and one pull-through more (common practice).
    """
    told = {stitch.abbreviation: stitch.basics for stitch in STITCHES if stitch.basics}
    assert list(told) == ["ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr"]
    for name, words in list(told.items())[2:]:
        before, rest = words.split("insert the hook in the stitch")
        loops = 1 + _often(before, r"yarn over(?: (twice|\d times))?") + 1
        assert rest.startswith(", yarn over and pull up a loop; ")
        if name == "sc":
            assert (loops, "through both loops" in rest) == (2, True)
        elif name == "hdc":
            assert (loops, "through all 3 loops" in rest) == (3, True)
        else:
            assert loops - _often(rest, r"through 2 loops\) (twice|\d times)") == 1


def _often(words: str, form: str) -> int:
    match = re.search(form, words)
    if match is None:
        return 0
    return {None: 1, "twice": 2}.get(match[1]) or int(match[1].split()[0])
