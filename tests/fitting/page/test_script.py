"""The script's own arithmetic against Python's: trees, the reading of entries, the rounding of lengths."""

from __future__ import annotations

import json
import math
import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from schematics.checks.tape import Tape
from schematics.errors import UsageError
from schematics.fitting.completion import completion_json
from schematics.fitting.measured import given_wearer
from schematics.fitting.page.fit_page import SCRIPTS, asset
from schematics.fitting.page.page_data import SPELLINGS, UNITS
from schematics.fitting.page.page_words import WORDS
from schematics.garment.printed_lengths import grain_of
from schematics.reading.spellings import parse_length
from schematics.units import Grain, Unit, round_half_up
from schematics.wearer.asking import asking_json, questions
from schematics.wearer.body import Body, BodyValue, Origin, WearerSpec
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import Const, End, Expr, Fact, Lookup, OfBody, OfWearer, Op, expr_json
from schematics.wearer.plausible import plausible_cm, slip
from schematics.wearer.resolve import resolve
from tests.examples import share
from tests.fitting.page.browser import Browser, Tab
from tests.spellings_for_tests import SPELT

DATA = {
    "units": UNITS,
    "spellings": SPELLINGS,
    "words": WORDS,
    "hair": 1e-9,
    "asking": asking_json(list(Body)),
    "wearer": completion_json(),
    "rules": {"terms": {}},
    "names": {body: body.words for body in Body},
    "bodies": {body: dict(zip(("low_cm", "high_cm"), plausible_cm(body), strict=True)) for body in Body},
}
FACTS = ("neck.full_cm", "drop_cm", "missing")


@pytest.fixture(scope="module")
def tab(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    """An empty page in which the parts of the script that know nothing of the page are at hand."""
    empty = tmp_path_factory.mktemp("script") / "empty.html"
    empty.write_text("<!DOCTYPE html><title>empty</title>", encoding="utf-8")
    opened = browser.open(empty)
    opened.run(
        "\n".join(asset(name) for name in SCRIPTS[: SCRIPTS.index("entries.js")])
        + f"\nvar DATA = {json.dumps(DATA)}; null"
    )
    yield opened
    opened.close()


def mapped(tab: Tab, function: str, cases: list[Any]) -> list[Any]:
    found: list[Any] = tab.run(f"({json.dumps(cases)}).map({function})")
    return found


class Trees:
    """Random trees of every node there is."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)

    def number(self, depth: int) -> Expr:
        if depth == 0 or self.dice.random() < 0.2:
            return self.dice.choice(
                [
                    Const(round(self.dice.uniform(-3, 3), 2)),
                    OfBody(self.dice.choice(list(Body)), self.dice.choice([None, *End])),
                    OfWearer(self.dice.choice(["adult", "age_years"])),
                    Fact(self.dice.choice(FACTS)),
                ]
            )
        if self.dice.random() < 0.2:
            xs = sorted(self.dice.sample(range(100), 4))
            points = tuple((Const(float(x)), self.number(depth - 1)) for x in xs)
            return Lookup(self.number(depth - 1), points)
        word = self.dice.choice(["+", "-", "*", "/", "min", "max", "first"])
        by = OfBody(self.dice.choice(list(Body))) if word == "/" else self.number(depth - 1)
        return Op(word, (self.number(depth - 1), by))

    def truth(self, depth: int) -> Expr:
        if depth == 0 or self.dice.random() < 0.4:
            return Op(self.dice.choice(["<", "<="]), (self.number(2), self.number(2)))
        return Op(self.dice.choice(["and", "or"]), (self.truth(depth - 1), self.truth(depth - 1)))

    def known(self) -> Inputs:
        body = {}
        for each in Body:
            if self.dice.random() < 0.7:
                low, middle, high = sorted(round(self.dice.uniform(1, 90), 1) for _ in range(3))
                body[each] = BodyValue(low_cm=low, cm=middle, high_cm=high, origin=Origin.OWN, source="dice")
        return Inputs(
            body=body,
            adult=self.dice.random() < 0.5,
            age_years=self.dice.choice([math.nan, 6.5]),
            facts={"neck.full_cm": round(self.dice.uniform(1, 90), 1), "drop_cm": 45.0, "missing": math.nan},
            end=self.dice.choice(list(End)),
            unknown=self.dice.random() < 0.5,
        )


def known_json(known: Inputs) -> dict[str, Any]:
    return {
        "body": {
            body.value: {"low": each.low_cm, "typical": each.cm, "high": each.high_cm}
            for body, each in known.body.items()
        },
        "adult": float(known.adult),
        "age_years": None if math.isnan(known.age_years) else known.age_years,
        "facts": {name: None if math.isnan(each) else each for name, each in known.facts.items()},
        "end": known.end.value,
        "unknown": known.unknown,
        "hair": 1e-9,
        "terms": {},
    }


WORKED = """
([tree, known]) => {
  const value = worked(tree, { ...known, age_years: known.age_years ?? NaN });
  return typeof value === "boolean" ? value : Number.isFinite(value) ? value : String(value);
}
"""


@pytest.mark.slow
@pytest.mark.seeds
def test_trees_come_to_what_python_makes_of_them(tab: Tab) -> None:
    trees = Trees(6)
    cases = [
        (trees.truth(2) if number % 2 else trees.number(3), trees.known()) for number in range(share(800))
    ]
    found = mapped(tab, WORKED, [[expr_json(tree), known_json(known)] for tree, known in cases])
    kinds = set()
    for (tree, known), said in zip(cases, found, strict=True):
        expected = evaluator_of(tree)(known)
        if isinstance(said, bool):
            assert said == bool(expected), tree
        elif isinstance(said, str):
            assert {"NaN": "nan", "Infinity": "inf", "-Infinity": "-inf"}[said] == str(float(expected)), tree
        else:
            assert said == pytest.approx(float(expected), rel=1e-12, abs=1e-12), tree
        kinds.add(type(said))
    assert {bool, str, float} <= kinds


def test_a_table_is_read_as_numpy_reads_it(tab: Tab) -> None:
    """numpy.interp: straight between points, level beyond them; of equal x the last one's y is met."""
    dice = np.random.default_rng(6)
    xs, ys = np.sort(dice.uniform(0, 50, 12)), dice.uniform(-5, 5, 12)
    at = [*dice.uniform(-10, 60, 200), *xs]
    points = [[float(x), float(y)] for x, y in zip(xs, ys, strict=True)]
    found = mapped(tab, f"(x) => worked(['table', x, {json.dumps(points)}], {{}})", [float(x) for x in at])
    assert found == pytest.approx(np.interp(at, xs, ys).tolist(), rel=1e-13)


def test_a_hair_of_float_error_decides_nothing(tab: Tab) -> None:
    """0.1 + 0.2 exceeds 0.3 by 4e-17, and 3e-9 is more than the hair of 1e-9."""
    known = {"hair": 1e-9, "unknown": False}
    found = mapped(
        tab,
        f"(pair) => worked(['<', ...pair], {json.dumps(known)})",
        [[0.3, 0.1 + 0.2], [0.3, 0.3 + 3e-9], [0.3 + 3e-9, 0.3]],
    )
    assert found == [False, True, False]


def lengths(count: int) -> list[str]:
    """Entries a maker may type, and some she should not."""
    dice = random.Random(6)
    made = []
    for _ in range(count):
        number = dice.choice(
            [
                f"{dice.randrange(120)}",
                f"{dice.uniform(0, 120):.{dice.randrange(1, 4)}f}",
                f"{dice.randrange(40)} {dice.randrange(8)}/{dice.choice([2, 4, 8, 0])}",
                f"{dice.randrange(1, 8)}/{dice.choice([2, 4, 8])}",
                f".{dice.randrange(9)}",
                dice.choice(["", "x", "5 5", "1/2/3", "5..5", "1 1", "-5", "5e3", "∞"]),
            ]
        )
        made.append(
            dice.choice(["", " "]) + number + dice.choice(["", "", " cm", "in", " inches", '"', "mm", " ell"])
        )
    return made


@pytest.mark.parametrize("unit", list(Unit))
def test_entries_are_read_as_a_spec_is(tab: Tab, unit: Unit) -> None:
    texts = lengths(600)
    function = (
        f"(text) => {{ const found = read(text, '{unit.value}', DATA);"
        "return found.value === undefined ? null : [found.value, found.unit]; }"
    )
    for text, found in zip(texts, mapped(tab, function, texts), strict=True):
        try:
            expected = parse_length(text, unit)
        except ValueError:
            assert found is None, text
        else:
            value, named = found
            assert value * UNITS[named]["cm"] == pytest.approx(expected, rel=1e-15), text


def test_what_people_type_is_read_to_the_last_digit_or_refused(tab: Tab) -> None:
    function = (
        "([text, unit]) => { const { value, unit: named } = read(text, unit, DATA);"
        "return value === undefined ? null : value * DATA.units[named].cm; }"
    )
    found = mapped(tab, function, [[text, unit.value] for text, unit, _ in SPELT])
    for (text, _, cm), read in zip(SPELT, found, strict=True):
        assert read == (None if cm is None else pytest.approx(float(cm), rel=1e-15, abs=0)), text


@pytest.mark.parametrize(
    ("kind", "text", "count"),
    [
        ("stitches", "19", 19),
        ("stitches", "9½", 9.5),
        ("stitches", "9,5", 9.5),
        ("stitches", "19 sts over 20 cm", 9.5),
        ("stitches", "2.54 sts/in", 10.0),
        ("rows", "0.7 rows per cm", 7.0),
        ("stitches", "19 over 200 mm", 9.5),
        ("stitches", "19 sts x 24 rows over 12.5 cm", 15.2),
        ("rows", "19 sts x 24 rows over 12.5 cm", 19.2),
        ("rows", "19 sts, 24 rows over 12.5 x 20 cm", 12),
        ("rows", "24 rows = 8 in", 24 / 20.32 * 10),
        ("stitches", "19 sts / 4 in", 19 / 10.16 * 10),
        ("rows", "19 sts / 4 in", None),
        ("stitches", "24 rows over 10 cm", None),
        ("stitches", "wool", None),
        ("stitches", "9.5 cm", None),
        ("stitches", "19 sts over 0 cm", None),
        ("stitches", "19 over wool", None),
    ],
)
def test_a_gauge_over_any_width(tab: Tab, kind: str, text: str, count: float | None) -> None:
    """Counts to 10 cm by hand, an inch being 2.54 cm."""
    to_10_cm = "found === undefined ? null : (found.count * 10) / found.over_cm"
    function = f"(text) => {{ const found = countOver(text, 'cm', '{kind}', DATA); return {to_10_cm}; }}"
    (found,) = mapped(tab, function, [text])
    assert found == (None if count is None else pytest.approx(count, rel=1e-12))


def spelt_ages() -> list[str]:
    """Ages as people type them, and what is none."""
    words = ["", " years", "y", " yrs.", " months", "mo", " MONTHS old", " old", " ells"]
    numbers = ["6", "2 1/2", "2½", "6,5", ".5", "18", "0", "120", "121", "1/0", "6 7", "x", "-3"]
    pairs = [
        "2 years 3 months",
        "2y, 3m",
        "2 yr and 6",
        "3 months 2 years",
        "2 3 months",
        "1.5 years 1/2 month",
    ]
    return [f" {number}{word}" for number in numbers for word in words] + pairs


def test_an_age_is_read_as_fit_reads_it(tab: Tab) -> None:
    """Every spelling that ``fit --age`` takes is taken, in the same years, and no other."""
    taken, texts = 0, spelt_ages()
    for text, found in zip(
        texts, mapped(tab, "(text) => readAge(text, DATA).years ?? null", texts), strict=True
    ):
        try:
            expected = given_wearer({"age": text}, Unit.CM).age_years
        except UsageError:
            expected = None
        assert found == (None if expected is None else pytest.approx(expected, rel=1e-12)), text
        taken += expected is not None
    assert taken > 40


@pytest.mark.slow
@pytest.mark.parametrize("unit", list(Unit))
def test_the_same_is_asked_in_the_same_words(tab: Tab, unit: Unit) -> None:
    dice = random.Random(22)
    cases: list[tuple[dict[Body, float], float | None]] = []
    for _ in range(300):
        years = dice.uniform(0, 18)
        age = dice.choice([None, years, round(years * 12) / 12, round(years)])
        known = resolve(WearerSpec(age_years=years if age is None else age), "asked").values
        some = dice.sample(list(known), 5)
        own = {body: known[body].cm * dice.choice([0.6, 0.9, 1, 1, 1, 1.3, 2.54, 1 / 2.54]) for body in some}
        cases.append((own, age))
    function = f"([own, age]) => questionsOf(own, age ?? NaN, '{unit.value}', DATA)"
    said = mapped(tab, function, [list(each) for each in cases])
    expected = [questions(own, age, unit) for own, age in cases]
    assert said == expected
    guesses = {sentence.rpartition(". ")[2] for each in said for sentence in each.values()}
    alone = {each for each in guesses if not each.startswith("Is the ")}
    assert alone == {"Inches?" if unit is Unit.CM else "Centimetres?", "Is that right?", "Which is it?"}
    assert guesses > alone


@pytest.mark.parametrize("unit", list(Unit))
def test_what_no_body_has_is_told_as_in_the_command_line(tab: Tab, unit: Unit) -> None:
    dice = random.Random(8)
    tried = [(body, round(unit.to_cm(10 ** dice.uniform(-1, 3.5)), 6)) for body in Body for _ in range(40)]
    cases = [(body, cm, slip(body, cm, unit)) for body, cm in tried]
    wrong = [each for each in cases if each[2] is not None]
    function = (
        f"([body, cm]) => slipOf(cm, [DATA.bodies[body].low_cm, DATA.bodies[body].high_cm], "
        f"'{unit.value}', DATA)"
    )
    assert mapped(tab, function, [[body.value, cm] for body, cm, _ in wrong]) == [each[2] for each in wrong]
    asked = {str(each[2]).rpartition(" ")[2] for each in wrong if str(each[2]).endswith("?")}
    assert asked == {"in?", "cm?", "m?"} - {f"{unit.value}?"}


def test_lengths_are_rounded_as_on_the_sheets(tab: Tab) -> None:
    dice = random.Random(6)
    cases = [dice.uniform(0, 120) for _ in range(500)] + [0.05, 0.15, 52.25, 26.95]
    expected = [f"{round(round_half_up(each, 0.1), 1):g} cm" for each in cases]
    assert mapped(tab, "(each) => plainLength(each, 'cm', DATA)", cases) == expected


@pytest.mark.parametrize(
    ("cm", "words"),
    [(0, "0 in"), (2.54, "1 in"), (1.27, "1/2 in"), (53.0, "20 7/8 in"), (0.9525, "3/8 in"), (50.8, "20 in")],
)
def test_inches_are_written_in_eighths(tab: Tab, cm: float, words: str) -> None:
    """2.54 cm to the inch: 53 cm are 20.866 in, nearest to 20 7/8."""
    assert mapped(tab, "(each) => plainLength(each, 'in', DATA)", [cm]) == [words]


def pairs() -> list[list[float]]:
    """Pairs of lengths, most of them close together."""
    dice = random.Random(6)
    firsts = [dice.uniform(5, 120) for _ in range(400)]
    return [[first, first + dice.choice([1, -1]) * 10 ** dice.uniform(-6, 1)] for first in firsts]


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_difference_that_decides_is_never_rounded_away(tab: Tab, unit: str) -> None:
    for case, (one, other, gap) in zip(
        pairs(), mapped(tab, f"(pair) => compared(...pair, '{unit}', DATA)", pairs()), strict=True
    ):
        assert one != other or gap.startswith("less than"), case
        assert not re.match(r"0(\.0+)? (cm|in)$", gap), case


@pytest.mark.parametrize("unit", Unit)
@pytest.mark.parametrize("key", ["", "neck.edge", "arm.run"])
def test_lengths_held_against_each_other_read_as_in_the_checks(tab: Tab, unit: Unit, key: str) -> None:
    """A tape's lengths, and a finished one against a tape's, however near."""
    grains = (grain_of(key) if key else Grain.USUAL, Grain.USUAL)
    found = mapped(tab, f"(pair) => compared(...pair, '{unit}', DATA, {[*map(str, grains)]})", pairs())
    expected = [Tape(unit).compare(one, other, grains) for one, other in pairs()]
    assert [tuple(each) for each in found] == [(each.first, each.second, each.gap) for each in expected]


def test_of_one_there_is_no_plural(tab: Tab) -> None:
    cases = [["1", "balls"], ["2", "balls"], ["1", "ch"], ["1.1", "sts"], ["1", ""], ["none", "rows"]]
    told = ["1 ball", "2 balls", "1 ch", "1.1 sts", "1", "none"]
    assert mapped(tab, "([text, unit]) => withUnit(text, unit)", cases) == told


def test_there_is_no_limit_in_the_script() -> None:
    """Every number in it is one of counting and rounding; what judges a child is data, drawings are not."""
    text = "\n".join(asset(name) for name in SCRIPTS if name not in ("figure.js", "drawn.js"))
    code = re.sub(r"//[^\n]*|\"[^\"\n]*\"|`[^`]*`|/\^\(\?:.*/i|/\[½.*?/g", "", text)
    numbers = {float(each) for each in re.findall(r"(?<![\w.])\d+(?:\.\d+)?(?:e-?\d+)?", code)}
    assert numbers <= {0, 1, 2, 4, 6, 0.5, 1e-9, 30, 100, 180, 300}, (
        "decimals, a per cent, half a turn, a pause"
    )


def test_the_assets_are_there() -> None:
    folder = Path(__file__).parents[3] / "schematics" / "fitting" / "page" / "templates"
    assert {path.name for path in folder.glob("*.js")} == set(SCRIPTS)
