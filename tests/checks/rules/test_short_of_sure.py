"""What grading pays for what is not sure: never less than how unsure it is, on garments of sampled counts."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from schematics.checks.evaluation import case_of, evaluate
from schematics.checks.finding import Case
from schematics.checks.rules.short_of_sure import ShortOfSure, short_of_sure_cm
from schematics.design.design import Size
from schematics.garment.constructions import CONSTRUCTIONS
from tests.checks.rules.test_sureness import wearer_of
from tests.checks.rules.test_varied_facts import stretchy
from tests.drawing.designs import random_design
from tests.examples import seeds

CANDIDATES = 6
SEEN_CM = 0.05
"""No tape shows less; where rows shorten a way that stitches lengthen, the bound is off by half of it."""


def candidates(seed: int) -> Iterator[Case]:
    """A random design's size, and the same with some of its counts changed."""
    dice = random.Random(f"candidates {seed}")
    word = list(CONSTRUCTIONS)[seed % len(CONSTRUCTIONS)]
    design = random_design(word, seed, most_sizes=1)
    design = replace(design, parts=stretchy(design))
    (first,) = design.sizes
    sizes = [replace(first, wearer=wearer_of(seed, first.wearer))]
    while len(sizes) < CANDIDATES:
        lever = dice.choice(CONSTRUCTIONS[word].levers)
        step = dice.randint(-lever.most, lever.most)
        size: Size | None = lever.moved(dice.choice(sizes), step, design.parts)
        sizes += [] if size is None else [replace(size, name=f"{len(sizes)}")]
    for result in evaluate(replace(design, sizes=tuple(sizes))):
        yield case_of(design, result)


@pytest.mark.slow
@pytest.mark.parametrize("seed", seeds(range(60), step=22))
def test_it_is_never_less_short_than_the_slopes_say(seed: int) -> None:
    for case in candidates(seed):
        doubt = ShortOfSure(case.parts, case.wearer, case.limits)
        for code in case.judges:
            bound = doubt.short_cm(code, case.inputs)
            by_slopes = short_of_sure_cm(code, case.limits, case.inputs, case.sds_cm(code))
            (bound_cm,), (short_cm,) = map(np.ravel, (bound, by_slopes))
            assert not short_cm > bound_cm + SEEN_CM, (code, short_cm, bound_cm)
