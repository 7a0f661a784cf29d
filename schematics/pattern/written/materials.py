"""Yarn and how much of it, hooks, notions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from schematics.analysis.yarn.need import ColourYarn, YarnNeed, spare_words, yarn_need
from schematics.checks.wording import listed
from schematics.crochet.hooks_and_yarn import hook_words, yarn_weight
from schematics.design.design import NOT_CHOSEN, Design
from schematics.design.guessed import marked
from schematics.design.missing import marks
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE, Items, Section, Table, Words
from schematics.pattern.book import Book
from schematics.units import GRAMS_PER_OUNCE, METRES_PER_YARD, Unit


def section(book: Book) -> Section:
    """What to have at hand before the first stitch."""
    return Section("Materials", tuple(_blocks(book)), "materials")


def _blocks(book: Book) -> Iterator[Words | Items | Table]:
    design = book.design
    yield f"Yarn: {_yarn(design)}."
    needs = [yarn_need(design, garment) for garment in book.garments]
    yield from _amounts(book, needs)
    yield Items(tuple(_hooks(design)), "Hooks, or the size that gives the gauge")
    notions = design.publication.notions or (marks(design)["pattern.notions"],)
    yield Items(notions, "Notions")


def _yarn(design: Design) -> str:
    yarn, unit, lacking = design.yarn, design.unit_first, marks(design)
    mass = length = None
    if yarn.ball_mass_g is not None:
        mass = _both(
            f"{round(yarn.ball_mass_g, 1):g} g", f"{yarn.ball_mass_g / GRAMS_PER_OUNCE:.1f} oz", unit
        )
    if yarn.ball_length_m is not None:
        length = _both(
            f"{round(yarn.ball_length_m, 1):g} m", f"{yarn.ball_length_m / METRES_PER_YARD:.0f} yd", unit
        )
    return ", ".join(
        (
            lacking["yarn.name"] if yarn.name == NOT_CHOSEN else yarn.name,
            yarn.fibre or lacking["yarn.fibre"],
            lacking["yarn.weight"] if yarn.weight is None else f"weight {yarn_weight(yarn.weight).words}",
            f"in balls of {mass or lacking['yarn.ball_mass']}",
            length or lacking["yarn.ball_length"],
        )
    )


def _both(metric: str, imperial: str, unit: Unit) -> str:
    return f"{imperial} ({metric})" if unit is Unit.IN else f"{metric} ({imperial})"


_Amount = tuple[str, Callable[[ColourYarn], float | None], str]
_METRIC: tuple[_Amount, ...] = (
    ("g", lambda each: each.buy_g, ".0f"),
    ("m", lambda each: each.length_m, ".0f"),
)
_IMPERIAL: tuple[_Amount, ...] = (
    ("oz", lambda each: each.buy_g and each.buy_g / GRAMS_PER_OUNCE, ".1f"),
    ("yd", lambda each: each.length_m and each.length_m / METRES_PER_YARD, ".0f"),
)
_BALLS: _Amount = ("balls", lambda each: each.balls, "d")


def _amounts(book: Book, needs: list[YarnNeed]) -> Iterator[Words | Table]:
    """To buy: a row for each unit, a column for each colour."""
    imperial = book.design.unit_first is Unit.IN
    units = (_BALLS, *(_IMPERIAL if imperial else _METRIC), *(_METRIC if imperial else _IMPERIAL))
    colours = needs[0].colours
    rows = []
    for unit, value, form in units:
        amounts = [[value(need.colours[index]) for need in needs] for index in range(len(colours))]
        if any(amount is not None for each in amounts for amount in each):
            rows.append((unit, *(_in_form(each, form) for each in amounts)))
    if unweighed := [words for key, words in marks(book.design).items() if key.endswith(".swatch.mass")]:
        yield ", ".join(unweighed)
    if not rows:
        return
    header = ("", *(each.colour or "amount" for each in colours))
    guess = any(fabric.swatch.guessed for fabric in book.design.parts.fabrics.values())
    spare = spare_words(book.design.yarn_use, needs)
    yield Table(
        caption=marked(f"To buy, with {spare} to spare", guess=guess), header=header, rows=tuple(rows)
    )
    yield from _worked_in(needs, imperial=imperial)


def _worked_in(needs: list[YarnNeed], *, imperial: bool) -> Iterator[str]:
    """What is in the poncho itself, give or take how much, which is never printed as nothing."""
    unit, grams, form, least = ("oz", GRAMS_PER_OUNCE, ".1f", 0.1) if imperial else ("g", 1.0, ".0f", 1.0)

    def amounts(masses_g: Iterable[float | None]) -> str:
        return _in_form([each and each / grams for each in masses_g], form)

    for same in zip(*(need.colours for need in needs), strict=True):
        if any(each.net_g is not None for each in same):
            of = f" of {same[0].colour}" if same[0].colour else ""
            net = amounts(each.net_g for each in same)
            error = amounts(each.error_g and max(each.error_g, least * grams) for each in same)
            yield f"In the poncho itself{of}: {net} {unit}, give or take {error} {unit}."


def _in_form(amounts: list[float | None], form: str) -> str:
    return texts_in_sizes([NONE if amount is None else format(amount, form) for amount in amounts])


def _hooks(design: Design) -> Iterator[str]:
    """Parts worked with the same hook together."""
    parts: dict[str, list[str]] = {}
    for fabric in design.parts.fabrics.values():
        if fabric.hook_mm is None:
            yield marks(design)[f"fabrics.{fabric.name}.hook"]
        else:
            parts.setdefault(hook_words(fabric.hook_mm), []).append(design.parts.used_for(fabric))
    for hook, names in parts.items():
        yield f"{hook}, for the {listed(', '.join(names).split(', '))}"
