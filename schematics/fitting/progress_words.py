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
