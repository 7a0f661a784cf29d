"""Contrast after WCAG 2.2, and grounds that lettering is read on."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.document.contrast import BLACK, WHITE, as_ground, contrast, ordered_grounds
from tests.examples import examples

COLOURS = st.integers(0, 0xFFFFFF).map("#{:06x}".format)


def by_the_formula(one: str, other: str) -> float:
    """Contrast ratio of WCAG 2.2 (definitions: relative luminance, contrast ratio), worked out anew."""

    def luminance(colour: str) -> float:
        total = 0.0
        for weight, part in zip((0.2126, 0.7152, 0.0722), bytes.fromhex(colour[1:]), strict=True):
            share = part / 255
            total += weight * (share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
        return total

    lighter, darker = max(map(luminance, (one, other))), min(map(luminance, (one, other)))
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [(BLACK, WHITE, 21.0), ("#767676", WHITE, 4.54), ("#777777", WHITE, 4.48), ("#ff0000", WHITE, 4.0)],
)
def test_contrasts_that_are_published(one: str, other: str, ratio: float) -> None:
    """Figures from memory; 21 is the largest there is (WCAG 2.2, contrast ratio)."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


@given(COLOURS, COLOURS)
@examples(100)
def test_lettering_is_read_on_every_ground(colour: str, ink: str) -> None:
    """4.5 in black and in any ink that has it on white (WCAG 2.2, success criterion 1.4.3)."""
    ink = ink if by_the_formula(ink, WHITE) >= 4.5 else BLACK
    ground = as_ground(colour, ink)
    assert min(by_the_formula(ground, ink), by_the_formula(ground, BLACK)) >= 4.5
    parts = zip(bytes.fromhex(colour[1:]), bytes.fromhex(ground[1:]), strict=True)
    assert all(before <= after for before, after in parts)


@pytest.mark.parametrize("light", ["#ffffff", "#f5efe0", "#d8c39d"])
def test_a_light_colour_is_shown_as_it_is(light: str) -> None:
    assert as_ground(light, BLACK) == light


def test_dark_colours_keep_apart() -> None:
    """Navy, moss and plum are still blue, green and red most of all."""
    grounds = [bytes.fromhex(as_ground(dark, BLACK)[1:]) for dark in ("#1b2a49", "#2f5d3a", "#6b1f35")]
    assert [max(range(3), key=ground.__getitem__) for ground in grounds] == [2, 1, 0]


@pytest.mark.parametrize("count", range(1, 10))
def test_greys_in_order_keep_apart_on_paper_and_are_grounds(count: int) -> None:
    """Neighbours, the page among them, differ by two of CIE 1976 L* at least: one is just seen (from memory).

    L* is 116 times the cube root of the luminance, less 16; contrast on black is (luminance + 0.05) / 0.05.
    """
    greys = ordered_grounds(count)
    assert all(as_ground(grey, BLACK) == grey for grey in greys)
    luminances = [by_the_formula(grey, BLACK) / 20 - 0.05 for grey in (WHITE, *greys)]
    assert luminances[-1] >= 0.5
    lightness = [116 * value ** (1 / 3) - 16 for value in luminances]
    steps = [before - after for before, after in itertools.pairwise(lightness)]
    assert min(steps) > 2
    assert max(steps) < 1.3 * min(steps)
