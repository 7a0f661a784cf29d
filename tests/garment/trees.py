"""Trees over counts at random."""

from __future__ import annotations

from hypothesis import strategies as st

from schematics.garment.amounts import (
    ROWS,
    Count,
    Formula,
    Given,
    Laid,
    cosine,
    root,
    sine,
    slope,
    squared,
)
from schematics.wearer.expr import Expr, least, most, node
from tests.garment.constructions.samples import FABRICS

NECK, BODY_ROWS = Count("body.neck"), Count("body.rows", ROWS)
COUNTS = st.fixed_dictionaries({"body.neck": st.integers(1, 300), "body.rows": st.integers(1, 300)})
_FACTORS = st.sampled_from([2, 3, 0.5, 7])


@st.composite
def sums(draw: st.DrawFn) -> Expr:
    """A length that is a sum of counts with fixed factors, in whatever form."""
    fabric = draw(FABRICS)
    tree: Expr = Laid(NECK, NECK.counted, fabric)
    for _ in range(draw(st.integers(1, 5))):
        more = Laid(draw(st.sampled_from([NECK, BODY_ROWS])), draw(st.sampled_from(list(type(ROWS)))), fabric)
        factor = draw(_FACTORS)
        tree = draw(
            st.sampled_from(
                [
                    tree + more,
                    tree - more,
                    more - tree,
                    factor * tree,
                    tree / factor,
                    tree * node(factor) + more,
                ]
            )
        )
    return tree


@st.composite
def trees(draw: st.DrawFn) -> Expr:
    """A length with everything in it that arithmetic by hand knows, and no result in between."""
    tree, other = draw(sums()), draw(sums())
    angle = Given(draw(st.integers(1, 89)), "°")
    for _ in range(draw(st.integers(1, 3))):
        tree = draw(
            st.sampled_from(
                [
                    slope(tree, other),
                    root(squared(tree) + squared(other)),
                    least(tree, other),
                    most(tree, other, tree - other),
                    tree * sine(angle) + other * cosine(angle),
                    (tree - other) / 2,
                    other - (tree + other),
                ]
            )
        )
    return tree


def formulas() -> st.SearchStrategy[Formula]:
    """Sums of counts that are worked out for themselves."""
    return sums().map(Formula)
