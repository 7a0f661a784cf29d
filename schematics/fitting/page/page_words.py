"""The page's words: what it says of entries, gauges and whole sizes. Names in braces are filled in."""

from __future__ import annotations

import math
from typing import Any

from schematics.checks.rules.sentence import (
    BORROWED,
    BORROWED_FROM,
    ENDS,
    HELD,
    IN_WORDS,
    MEASURE,
    MISSING,
    ORIGINS,
    SURE,
    TO_BE_SURE,
)
from schematics.checks.tape import LESS_THAN
from schematics.wearer.expr import End

WORDS: dict[str, Any] = {
    "problems": {
        "not_a_number": "Not understood: type a length such as 52, 52.5, 20 1/2 or 4 ft 2.",
        "not_a_count": "Not understood: type a number such as 19 or 9.5, or its swatch: 19 over 12.5 cm.",
        "unit": "The unit is not understood: type cm, mm, m, in or ft, or a number alone.",
        "negative": "A length is more than nought.",
        "gauge": "Expected {low} to {high}: check the count and what it is over.",
        "not_an_age": "Not understood: type an age such as 6, 18 months, 2 1/2 or 2 years 3 months.",
        "too_old": "Expected an age of {oldest} years at most.",
    },
    "answers": {
        "stop": {"mark": "✕", "word": "Stop"},
        "mind": {"mark": "!", "word": "Mind"},
        "good": {"mark": "✓", "word": "Good"},
        "unknown": {"mark": "?", "word": "Not checked"},
    },
    "verdicts": {
        "stop": "does not fit",
        "mind": "fits, with something to mind",
        "good": "fits",
        "unknown": "nothing against it so far",
    },
    "missing": MISSING,
    "sure": SURE,
    "chance_words": [[None if below == math.inf else below, words] for below, words in IN_WORDS],
    "to_be_sure": TO_BE_SURE,
    "measure": MEASURE,
    "origins": {origin.value: words for origin, words in ORIGINS.items()},
    "typical": ENDS[End.TYPICAL],
    "held": HELD,
    "borrowed": BORROWED,
    "borrowed_from": BORROWED_FROM,
    "taken": "Taken as {length}, {origin}.",
    "and": " and ",
    "counts": {
        "good": ["1 check is good", "{count} checks are good"],
        "unknown": ["1 check is not made", "{count} checks are not made"],
    },
    "pattern": " Whoever wears it.",
    "pattern_only": " Whoever wears it, at the pattern's gauge.",
    "summary": {
        "nothing": "Type a measurement or an age to see which sizes fit.",
        "good": "Fits: {sizes}.",
        "unknown": "Nothing against it so far: {sizes}.",
        "mind": "Fits, with something to mind: {sizes}.",
        "stop": "Does not fit: {sizes}.",
        "advised": "Work size {size}.",
        "nearest": "Nearest so far, with checks missing: size {size}.",
        "none": "No size fits as it is; {size} comes nearest.",
        "problems": ["1 entry is left out.", "{count} entries are left out."],
        "gauge": "At your gauge.",
    },
    "size": "Size {size}: {verdict}",
    "size_advised": "Size {size}, advised: {verdict}",
    "less_than": LESS_THAN,
    "gauge": {
        "taken": "Reckoned with {stitches} stitches and {rows} rows over {span}.",
        "pattern": "The pattern's: {stitches} stitches and {rows} rows over {span}.",
    },
    "store": {
        "kept": "Kept on this device until you forget it.",
        "forgotten": "Nothing is kept.",
        "refused": "This browser does not let the page keep anything.",
    },
    "used": {"item": "{name}: {length}, {origin}", "none": "Nothing was typed."},
}  # fmt: skip
