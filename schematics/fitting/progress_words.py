"""The sentences on a piece half-way: the same from the command line and on the maker's page."""

from __future__ import annotations

GAUGE = (
    "So you work {stitches} stitches and {rows} rows over {span}; the pattern has {usual_stitches} and "
    "{usual_rows}."
)
"""Of the gauge that a piece is measured to have."""

ALIKE = "You are taken to work the other fabrics as much tighter or looser."
ALONE = "The other fabrics are taken to be as in the pattern."
"""How fabrics are taken of which nothing was measured: where the body was, and where another piece was."""

INSTEAD = (
    "For the pattern’s length the {piece} would need {rows} rows, not {all}; "
    "what it is seamed to has to follow."
)
"""How many rows the piece would need to come out as long as in the pattern."""

KEPT = tuple(
    "The {piece} keeps its {all} rows, which the edge it is worked on sets: it comes out "
    f"{longer} than in the pattern."
    for longer in ("longer", "shorter")
)
"""The same of a band: where it would need fewer rows, and where more."""


def instead_words(piece: str, rows: int, rows_instead: int, *, band: bool) -> str:
    """What is said where a piece comes out longer or shorter than in the pattern.

    >>> instead_words("body", 22, 19, band=False)
    'For the pattern’s length the body would need 19 rows, not 22; what it is seamed to has to follow.'
    >>> instead_words("neck band", 48, 50, band=True)[-41:]
    'it comes out shorter than in the pattern.'
    """
    template = KEPT[rows_instead > rows] if band else INSTEAD
    return template.format(piece=piece, rows=rows_instead, all=rows)
