"""Yarn and how much of it, hooks, notions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from schematics.analysis.yarn.need import ColourYarn, YarnNeed, metres_per_gram, spare_words, yarn_need
from schematics.checks.wording import listed
from schematics.crochet.hooks_and_yarn import hook_words, yarn_weight
from schematics.design.design import NOT_CHOSEN, Design
from schematics.design.guessed import marked
from schematics.design.missing import marks
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE, Items, Section, Table, Words
from schematics.pattern.book import Book
from schematics.pattern.written.stitch_size import stitch_for_stitch
from schematics.units import GRAMS_PER_OUNCE, METRES_PER_YARD, Unit

_PATTERNS_YARN = "This is the pattern’s yarn; the gauge is your own, and another yarn takes other amounts."
_SWATCH_FIRST = (
    "Your yarn is {than} than the pattern’s. All counts hold for the pattern’s gauge, so work a swatch in it "
    "first; if its gauge is another, have the pattern made anew for that gauge."
)
_AS_THICK = 1.15
"""Yarns of which a gram has at most so many times the metres are as thick (common practice, no source)."""

_HOOKS = "Hooks, or the size that gives the gauge"
_OWN_HOOKS = "Hooks: those that give your own gauge"
_HOOK_UNTRIED = (
    "For a part that you worked no swatch of, take a hook as many sizes from the pattern’s as yours for the "
    "body is."
)


def section(book: Book) -> Section:
    """What to have at hand before the first stitch."""
    return Section("Materials", tuple(_blocks(book)), "materials")


def _blocks(book: Book) -> Iterator[Words | Items | Table]:
    design = book.design
    own_gauge = any(map(design.is_at_own_gauge, design.parts.by_name.values()))
    yield f"Yarn: {_yarn(design)}."
    if own_gauge and design.yarn == design.pattern_yarn:
        yield _PATTERNS_YARN
    yield from swatch_first(design)
    needs = [yarn_need(design, garment) for garment in book.garments]
    yield from _amounts(book, needs, own_gauge=own_gauge)
    yield Items(tuple(_hooks(design)), _OWN_HOOKS if own_gauge else _HOOKS)
    if any(fabric.swatch.reckoned for fabric in design.parts.by_name.values()):
        yield _HOOK_UNTRIED
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
            *_weight(design),
            f"in balls of {mass or lacking['yarn.ball_mass']}",
            length or lacking["yarn.ball_length"],
        )
    )


def swatch_first(design: Design) -> Iterator[str]:
    """What is said of a maker's own yarn where it is not as thick as the pattern's and she gave no gauge."""
    own_gauge = any(map(design.is_at_own_gauge, design.parts.by_name.values()))
    if (than := _than_the_patterns(design)) and not own_gauge:
        yield _SWATCH_FIRST.format(than=than)


def _weight(design: Design) -> Iterator[str]:
    """The trade's weight of the yarn; the pattern's says nothing of a yarn of another thickness."""
    weight = design.yarn.weight
    if not _than_the_patterns(design):
        yield marks(design)["yarn.weight"] if weight is None else f"weight {yarn_weight(weight).words}"


def _than_the_patterns(design: Design) -> str:
    """Whether a maker's own yarn is thinner or thicker than the pattern's; empty where neither is known."""
    usual = design.pattern_yarn and metres_per_gram(design.pattern_yarn)
    own = metres_per_gram(design.yarn)
    if not usual or not own or 1 / _AS_THICK <= own / usual <= _AS_THICK:
        return ""
    return "thinner" if own > usual else "thicker"


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


def _amounts(book: Book, needs: list[YarnNeed], *, own_gauge: bool) -> Iterator[Words | Table]:
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
    if own_gauge:
        yield from stitch_for_stitch(book.design, needs[0], book.garments[0], book.design.yarn)


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
    parts: dict[tuple[str, bool], list[str]] = {}
    for fabric in design.parts.fabrics.values():
        own, named = design.is_at_own_gauge(fabric), fabric.hook_mm is not None
        if named or own:
            hook = "" if fabric.hook_mm is None else hook_words(fabric.hook_mm)
            parts.setdefault((hook, own), []).append(design.parts.used_for(fabric))
        else:
            yield marks(design)[f"fabrics.{fabric.name}.hook"]
    for (hook, own), names in parts.items():
        whose = f"for the {listed(', '.join(names).split(', '))}"
        if own:
            yield f"your own {whose}{f'; the pattern has {hook}' if hook else ''}"
        else:
            yield f"{hook}, {whose}"
