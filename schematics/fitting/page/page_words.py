"""The page's words: what it says of entries, gauges and whole sizes. Names in braces are filled in."""

from __future__ import annotations

import math
from typing import Any

from schematics.checks.finding import MADE_AMISS
from schematics.checks.rules import hang, neck, reach
from schematics.checks.rules.sentence import (
    BORROWED,
    BORROWED_FROM,
    ENDS,
    HELD,
    IN_WORDS,
    MEASURE,
    MISSING,
    ORIGINS,
    SO,
    SURE,
    TO_BE_SURE,
)
from schematics.checks.tape import LESS_THAN
from schematics.checks.wording import JUST_OFF
from schematics.fitting.advice_words import (
    ADVISED,
    ADVISED_SO_FAR,
    AMISS,
    COUNTS_CAN_MEND,
    LEFT_OPEN,
    MAY_BE_AMISS,
    NOT_HERS,
    NOT_THIS_CHILDS,
)
from schematics.fitting.gauge import PICKED_UP
from schematics.fitting.progress_words import ALIKE, ALONE, GAUGE, INSTEAD, KEPT
from schematics.wearer.expr import End

REASON_WORDS = {
    hang.KNEE: ["hem {length} above the knee", "hem {length} below the knee"],
    reach.BAND: ["bands {length} past the wrist", "bands {length} above the wrist"],
    neck.PASS: ["head passes with {length} to spare", "head too large by {length}"],
}
"""The reasons shown beside a size, with something to spare and with too little, by the rule it is from."""

WORDS: dict[str, Any] = {
    "problems": {
        "not_a_number": "Not understood: type a length such as 52, 52.5, 20 1/2 or 4 ft 2.",
        "not_a_count": "Not understood: type a number such as 19 or 9.5, or its swatch: 19 over 12.5 cm.",
        "unit": "The unit is not understood: type cm, mm, m, in or ft, or a number alone.",
        "negative": "A length is more than nought.",
        "gauge": "Expected {low} to {high}: check the count and what it is over.",
        "not_an_age": "Not understood: type an age such as 6, 18 months, 2 1/2 or 2 years 3 months.",
        "stretch": "Not understood: type both ways, such as {example}.",
        "swatch": "Not understood: type such as 20 sts 15 rows over 20 cm, {example}, or both.",
        "over": "Type the width of the swatch, such as 10 cm.",
        "too_old": "Expected an age of {oldest} years at most.",
    },
    "examples": {
        "cm": {"height": "116 or 4 ft 2", "head_girth": "52"},
        "in": {"height": "46 or 4 ft 2", "head_girth": "20 1/2"},
    },
    "answers": {
        "stop": {"mark": "✕", "word": "Stop"},
        "mind": {"mark": "!", "word": "Mind"},
        "good": {"mark": "✓", "word": "Good"},
        "unknown": {"mark": "?", "word": "Not checked"},
    },
    "reasons": REASON_WORDS,
    "reasons_at": {hang.KNEE: "hem", reach.BAND: "band", neck.PASS: "neck"},
    "just": {
        hang.KNEE: "hem at the knee",
        reach.BAND: "bands at the wrist",
        neck.PASS: "head just passes",
    },
    "verdicts": {
        "stop": "does not fit",
        "mind": "can be worn, but not all is right",
        "unsure": "should fit, but that is not sure",
        "doubtful": "may fit, but that is far from sure",
        "good": "fits",
        "unknown": "nothing against it so far",
    },
    "missing": MISSING,
    "sure": SURE,
    "so": SO,
    "just_off": list(JUST_OFF),
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
    "all": "All that is said of size {size}",
    "at_pattern_gauge": " That is so at the pattern’s gauge.",
    "summary": {
        "nothing": "Type a measurement or an age to see which sizes fit.",
        "advised": dict(ADVISED),
        "advised_so_far": dict(ADVISED_SO_FAR),
        "amiss": [AMISS, MAY_BE_AMISS],
        "made_amiss": MADE_AMISS,
        "left_open": list(LEFT_OPEN),
        "problems": ["1 entry is left out.", "{count} entries are left out."],
        "gauge": "Reckoned at your gauge.",
    },
    "size": "Size {size}: {verdict}",
    "size_advised": "Size {size}, advised: {verdict}",
    "beside": {"smaller": "Smaller: size {size}", "larger": "Larger: size {size}", "other": "Size {size}"},
    "not_hers": NOT_THIS_CHILDS,
    "not_hers_advised": NOT_HERS,
    "mend": COUNTS_CAN_MEND,
    "why": "Why size {size}",
    "minded": "What to mind of size {size}",
    "minded_where": "What to mind of size {size} is told on the second page.",
    "figure": {
        "title": "This child in size {size}",
        "undrawn": "Type an age or a height to see the child drawn.",
    },
    "steps": {"of": "{place} of {all}.", "decides": "This one decides most."},
    "own_counts": {
        "usual": "These are the pattern’s counts, at its gauge.",
        "own": (
            "These are the pattern’s counts of size {size}, which your gauge does not change: worked at it, "
            "the poncho comes out as long and wide as is told below. The yarn is reckoned by the pattern’s "
            "swatch, stitch for stitch."
        ),
        "scaled": [
            "Your stitches are smaller than the pattern’s and take less: as a rule about {percent} % less.",
            "Your stitches are larger than the pattern’s and take more: as a rule about {percent} % more.",
        ],
        "picked": PICKED_UP,
        "spread": "{stitches} stitches to {rows} row ends, spread evenly",
        "for": "{title} for {name}, size {size}",
        "nobody": "{title}, size {size}",
        "at": "{stitches} stitches and {rows} rows over {span}",
    },
    "halfway": {
        "rows": "Type a number of rows from 1 to {most}.",
        "expected": "By the pattern it is {width} along the last row now, and {height} up the rows.",
        "gauge": GAUGE,
        "comes": "If you go on like this, size {size} {verdict}: {reasons}.",
        "instead": INSTEAD,
        "kept": list(KEPT),
        "follows": "As long as the body’s front edge is then: {counted}.",
        "stays": "Increases and markers keep the pattern’s counts.",
        "alike": ALIKE,
        "alone": ALONE,
        "far": "That is far from the pattern: check the lengths, their unit and the rows.",
        "use": "Size {size} finished: yours, and the pattern’s",
    },
    "less_than": LESS_THAN,
    "gauge": {
        "taken": "Reckoned with {stitches} stitches and {rows} rows over {span}.",
        "half": {
            "stitches": " The rows are the pattern’s: count yours, too.",
            "rows": " The stitches are the pattern’s: count yours, too.",
        },
        "pattern": "The pattern's: {stitches} stitches and {rows} rows over {span}.",
    },
    "store": {
        "kept": "Kept on this device until you forget it.",
        "forgotten": "Nothing is kept.",
        "refused": "This browser does not let the page keep anything.",
    },
    "used": {"item": "{name}: {length}, {origin}", "none": "Nothing was typed."},
}  # fmt: skip
