"""Yarn and how much of it, hooks, notions."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from schematics.analysis.yarn.need import ColourYarn, YarnNeed, yarn_need
from schematics.checks.wording import listed
from schematics.crochet.fabric import Fabric
from schematics.crochet.hooks_and_yarn import hook_words, yarn_weight
from schematics.design.design import Yarn
from schematics.document.document import NONE, Items, Section, Table, Words
from schematics.pattern.book import Book
from schematics.pattern.chart_words.in_sizes import texts_in_sizes
from schematics.pattern.written.to_be_added import to_be_added
from schematics.units import GRAMS_PER_OUNCE, METRES_PER_YARD, Unit


def section(book: Book) -> Section:
    """What to have at hand before the first stitch."""
    return Section("Materials", tuple(_blocks(book)), "materials")


def _blocks(book: Book) -> Iterator[Words | Items | Table]:
    design = book.design
    yield f"Yarn: {_yarn(design.yarn, design.unit)}."
    needs = [yarn_need(design, garment) for garment in book.garments]
    yield _amounts(book, needs)
    yield Items(tuple(_hooks(book)), "Hooks, or the size that gives the gauge")
    notions = design.publication.notions or (to_be_added("notions: how many markers, which needle"),)
    yield Items(notions, "Notions")


def _yarn(yarn: Yarn, unit: Unit) -> str:
    parts = [yarn.name, yarn.fibre or to_be_added("fibre of the yarn")]
    if yarn.weight is None:
        parts.append(to_be_added("weight of the yarn"))
    else:
        parts.append(f"weight {yarn_weight(yarn.weight).words}")
    ball = []
    if yarn.ball_mass_g is not None:
        metric, imperial = f"{yarn.ball_mass_g:g} g", f"{yarn.ball_mass_g / GRAMS_PER_OUNCE:.1f} oz"
        ball.append(_both(metric, imperial, unit))
    if yarn.ball_length_m is not None:
        metric, imperial = f"{yarn.ball_length_m:g} m", f"{yarn.ball_length_m / METRES_PER_YARD:.0f} yd"
        ball.append(_both(metric, imperial, unit))
    return ", ".join(parts) + (f"; one ball has {', '.join(ball)}" if ball else "")


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


def _amounts(book: Book, needs: list[YarnNeed]) -> Words | Table:
    """To buy: a row for each unit, a column for each colour."""
    imperial = book.design.unit is Unit.IN
    units = (_BALLS, *(_IMPERIAL if imperial else _METRIC), *(_METRIC if imperial else _IMPERIAL))
    colours = needs[0].colours
    rows = []
    for unit, value, form in units:
        amounts = [[value(need.colours[index]) for need in needs] for index in range(len(colours))]
        if any(amount is not None for each in amounts for amount in each):
            rows.append((unit, *(_in_form(each, form) for each in amounts)))
    if not rows:
        return to_be_added("amount of yarn")
    header = ("", *(each.colour or "amount" for each in colours))
    margin = book.design.yarn_use.margin_words
    return Table(caption=f"To buy, with {margin} to spare", header=header, rows=tuple(rows))


def _in_form(amounts: list[float | None], form: str) -> str:
    return texts_in_sizes([NONE if amount is None else format(amount, form) for amount in amounts])


def _hooks(book: Book) -> Iterator[str]:
    """Parts worked with the same hook together."""
    parts: dict[str, list[str]] = {}
    for name, fabric in book.design.parts.by_name.items():
        parts.setdefault(_hook(book, fabric, name), []).append(name)
    for hook, names in parts.items():
        yield f"{hook}, for {listed(names)}"


def _hook(book: Book, fabric: Fabric, part: str) -> str:
    hook_mm = fabric.hook_mm or book.design.hook_mm
    return to_be_added(f"hook for the {part}") if hook_mm is None else hook_words(hook_mm)
