"""Random children as a maker would type them, and what Python says of each."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from schematics.checks.finding import Finding
from schematics.design.design import Design
from schematics.fitting.gauge import Gauge, SizeAtGauge, size_at_gauge
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.measured import given_wearer
from schematics.fitting.page.page_data import asked
from schematics.fitting.sizing import Point, SizeFit, best, size_fits
from schematics.reading.spellings import parse_length
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve

_FRACTIONS = ("", " 1/8", " 1/4", " 3/8", " 1/2", " 5/8", " 3/4", " 7/8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Child:
    """What is typed: texts by the field's id, the unit, the age, a count of stitches and one of rows."""

    unit: Unit
    texts: Mapping[Body, str]
    age_text: str = ""
    gauge: tuple[str, str] | None = None
    own: Mapping[Body, float] = field(default_factory=dict)

    @property
    def age(self) -> float | None:
        """The age in years, as ``fit --age`` reads it."""
        return given_wearer({"age": self.age_text}, self.unit).age_years if self.age_text else None

    @property
    def typed(self) -> dict[str, Any]:
        """The same for the page."""
        return {
            "unit": self.unit.value,
            "texts": {body.value: text for body, text in self.texts.items()},
            "age": self.age_text,
            "gauge": self.gauge and list(self.gauge),
        }


def child(texts: Mapping[Body, str], unit: Unit = Unit.CM) -> Child:
    """The child whose measurements are typed so."""
    own = {body: parse_length(text.replace(",", "."), unit) for body, text in texts.items()}
    return Child(unit=unit, texts=texts, own=own)


def random_children(design: Design, count: int, seed: int, *, odd_gauge: bool = False) -> list[Child]:
    """Children and some grown-ups, one in four measurements missing, some helped out by the age table.

    Args:
        design: whose page is filled in.
        count: how many.
        seed: the same seed gives the same children.
        odd_gauge: whether each maker has a gauge of her own, up to a third off the pattern's.
    """
    dice = random.Random(seed)
    fields = [body for view in asked(design) for body in view.bodies]
    children = []
    for _ in range(count):
        typical = resolve(WearerSpec(age_years=dice.uniform(1, 17)), "random").values
        unit = dice.choice(list(Unit))
        keep = dice.choice((0.3, 0.75, 1.0))
        lengths = {
            body: typical[body].cm * dice.gauss(1, 0.07)
            for body in fields
            if body in typical and dice.random() < keep
        }
        texts = {body: _typed(length, unit, dice) for body, length in lengths.items()}
        own = {body: parse_length(text.replace(",", "."), unit) for body, text in texts.items()}
        gauge = None
        if odd_gauge:
            usual = Gauge.of(design.parts.body)
            gauge = _typed_count(usual.stitches_per_cm, dice), _typed_count(usual.rows_per_cm, dice)
        # Without any own measurement and without an age there is nothing to be judged.
        age = _typed_age(dice) if not own or dice.random() < 0.4 else ""
        children.append(Child(unit=unit, texts=texts, own=own, age_text=age, gauge=gauge))
    return children


def at_the_limit(design: Design) -> list[Child]:
    """Heads as large as the neck of the first size opens, in either unit, on children of eight."""
    fit = Sizes(design).fits(Child(unit=Unit.CM, texts={}, age_text="8"))[0]
    opens_cm = next(each.garment_cm for each in fit.points if each.code == "NECK-PASS")
    assert opens_cm is not None
    heads = [child({Body.HEAD_GIRTH: f"{unit.from_cm(opens_cm):.3f}"}, unit) for unit in Unit]
    return [replace(each, age_text="8") for each in heads]


def of_long_arms() -> list[Child]:
    """Some for whom a size with less to mind may be so far off that it is not theirs."""
    arms = [child({Body.CENTRE_BACK_NECK_TO_WRIST: cm}) for cm in ("70", "78", "84")]
    return [replace(each, age_text="13") for each in arms]


def _typed_count(usual_per_cm: float, dice: random.Random) -> str:
    """To 10 cm where nothing else is said, or of a whole swatch."""
    over_cm, per_cm = dice.choice((1, 10, 12.5, 18)), usual_per_cm * dice.uniform(0.75, 1.33)
    over = dice.choice(("", " over 10 cm")) if over_cm == 10 else f" over {over_cm:g} cm"
    return f"{over_cm * per_cm:.2f}{over}"


def _typed_age(dice: random.Random) -> str:
    years = dice.randrange(1, 18)
    return dice.choice(
        [
            f"{years}",
            f"{dice.randrange(3, 60)} months",
            f"{years} 1/2",
            f"{years} years {dice.randrange(1, 12)} months",
            f"{dice.uniform(0, 22):.2f}",
            f"{years},3 yrs",
        ]
    )


def _typed(length_cm: float, unit: Unit, dice: random.Random) -> str:
    if unit is Unit.CM:
        return f"{length_cm:.1f}".replace(".", dice.choice(".,"))
    if dice.random() < 0.5:
        return f"{length_cm / 2.54:.2f}"
    whole, eighths = divmod(round(length_cm / 2.54 * 8), 8)
    return f"{whole}{_FRACTIONS[eighths]}"


def ruled(fit: SizeFit) -> list[tuple[Point, Finding]]:
    """The rules on the wearer, and what is found by each."""
    found = {each.code: each for each in fit.findings}
    return [(point, found[point.code]) for point in fit.points]


def answers_of(fits: Sequence[SizeFit]) -> dict[str, Any]:
    """The answers of every size by code, and the size advised: what is good, but not sure, is minded."""
    answers = {
        fit.name: {
            point.code: "mind" if finding.unsure else point.answer.name.lower()
            for point, finding in ruled(fit)
        }
        for fit in fits
    }
    return {"answers": answers, "advised": best(fits).name}


def gauge_told(stitches: str, rows: str) -> str:
    """What was typed into two fields as ``fit --gauge`` is told it."""
    counts, overs = zip(*((*each.split(" over "), "10 cm")[:2] for each in (stitches, rows)), strict=True)
    return f"{counts[0]} sts {counts[1]} rows over {overs[0]} x {overs[1]}"


class Sizes:
    """The sizes of a design, each made once at every gauge that is asked for."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self._made: dict[tuple[str, str] | None, tuple[SizeAtGauge, ...]] = {}

    def fits(self, each: Child) -> list[SizeFit]:
        """What ``fit`` makes of the child, in the unit it is typed in."""
        design = replace(self.design, unit=each.unit)
        wearer = resolve(WearerSpec(age_years=each.age, own=each.own), "the wearer")
        return [*size_fits(design, self._at(each.gauge), wearer)]

    def judged(self, each: Child) -> dict[str, Any]:
        """What Python says: the answers of every size by code, and the size advised."""
        return answers_of(self.fits(each))

    def _at(self, gauge: tuple[str, str] | None) -> tuple[SizeAtGauge, ...]:
        if gauge not in self._made:
            parts = self.design.parts
            if gauge is not None:
                parts = read_gauge([gauge_told(*gauge)], self.design).parts
            self._made[gauge] = tuple(size_at_gauge(self.design, size, parts) for size in self.design.sizes)
        return self._made[gauge]


ANSWERS = """
Object.fromEntries([...document.querySelectorAll("li[data-verdict]")].map((size) => {
  const told = [...size.querySelectorAll("[data-code]")];
  return [size.dataset.size, Object.fromEntries(told.map(({ dataset }) => [dataset.code, dataset.answer]))];
}))
""".strip()
"""What the page answers for every size, by the check's code."""

SENTENCES = """
Object.fromEntries([...document.querySelectorAll("li[data-verdict]")].map((size) => {
  const told = [...size.querySelectorAll("[data-code]")];
  const words = told.map((each) => [each.dataset.code, each.lastChild.textContent]);
  return [size.dataset.size, Object.fromEntries(words)];
}))
""".strip()
"""What the page says in words of every size, by the check's code."""

FILL_IN = """
(children) => {
 const later = window.setTimeout;
 window.setTimeout = (act) => act();
 const said = children.map((child) => {
  const type = (id, text) => {
    const field = document.getElementById(id);
    field.value = text;
    for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
  };
  document.getElementById("forget").click();
  document.getElementById("unit-" + (child.gauge ? "cm" : child.unit)).click();
  if (child.gauge) child.gauge.forEach((text, index) => type(["gauge-stitches", "gauge-rows"][index], text));
  document.getElementById("unit-" + child.unit).click();
  for (const [id, text] of Object.entries(child.texts)) type(id, text);
  type("age", child.age);
  return {
    answers: ANSWERS,
    sentences: SENTENCES,
    advised: document.getElementById("verdicts").dataset.advised,
    summary: document.getElementById("summary").textContent,
    open: document.getElementById("left-open").textContent,
    amiss: document.getElementById("amiss").textContent,
    problems: [...document.querySelectorAll(".problem:not([hidden])")].map((each) => each.textContent),
  };
 });
 window.setTimeout = later;
 return said;
}
""".replace("ANSWERS", ANSWERS).replace("SENTENCES", SENTENCES)
"""Types children into the page one by one and reads what it says of each, its summary without delay."""
