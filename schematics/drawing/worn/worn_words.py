"""What the worn sheet says under its figures: the model, the checks, where the body comes from."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from schematics.checks.evaluation import SEVERITIES, WORRIES, Result
from schematics.checks.finding import Finding, Severity
from schematics.checks.rules import hang, reach
from schematics.checks.wording import sentence_case
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.text_block import TextBlock
from schematics.drawing.notes import STOPPED_HEADING, stops_of, worded
from schematics.drawing.pieces.piece_texture import shades_in_words
from schematics.drawing.worn.worn_figures import Both
from schematics.wearer.body import Origin
from schematics.wearer.proportions import Proportioned

_HEADING = "A plain model, not a fitting"

_BETWEEN = 1.0
_CODES = (hang.KNEE, hang.WHERE, reach.BAND, reach.SPREAD)

_MODEL = (
    "Drawn on the typical body of the size, without folds, stretch and the give of the body. Arms down: the "
    "hem hangs as far below the nape as the checks say, sag included; a front that starts lower hangs lower. "
    "Arms level: {level}."
)
_BANDS = "the bands come as far out as the reach and half the spread let them, and "
_ON_HEM = _BANDS + "the hem between them hangs no longer than it is worked"
_ON_SIDES = _BANDS + "the sides hang straight down from them"
_UNKNOWN = "where the bands come is not known, so none are drawn"
_LEVELS = "Waist, hip and knee are marked with their heights above the floor."
_TOO_SHORT = "The garment is too short to be drawn on a body."
_NO_HEIGHT = "Measure it and give height in the size's wearer block, or give a child's age there."
_ALWAYS = "head height, hip, hand length, legs and feet"


def reported_findings(result: Result) -> list[Finding]:
    """What the checks say of the hem, the reach and the spread, in that order."""
    return [finding for code in _CODES for finding in result.findings if finding.code == code]


def words_block(result: Result, body: Proportioned | None, both: Both | None, width: float) -> Block:
    """All of it ``width`` mm wide; ``body`` and ``both`` are None where no figure can be drawn."""
    findings = findings_words(result)
    if body is None or both is None:
        return _set("No figure: the wearer's height is not known", [_NO_HEIGHT, *findings], width, result)
    return _set(_HEADING, [_model(both), *findings, sources_words(result, body)], width, result)


def parted_words(
    result: Result, body: Proportioned, both: Both, width: float, column: float, *, stops_aside: bool
) -> tuple[Block, Block]:
    """The model and the sources ``width`` mm wide, and what the checks say in a ``column`` of that width.

    What stops the size is written over the model, or in the column if ``stops_aside``.
    """
    about = _set(
        _HEADING, [_model(both), sources_words(result, body)], width, None if stops_aside else result
    )
    return about, _set("Hem and arms", findings_words(result), column, result if stops_aside else None)


def findings_words(result: Result, always: Collection[str] = _CODES) -> list[str]:
    """What the checks say here of a size that may be made; what stops it has a heading of its own.

    Of what is good only the codes that are ``always`` told.
    """
    findings = (
        each
        for each in reported_findings(result)
        if each.severity is not Severity.STOP and (each.code in always or each.severity in WORRIES)
    )
    return [worded(each) for each in sorted(findings, key=_worst_first)]


def _worst_first(finding: Finding) -> int:
    return SEVERITIES.index(finding.severity)


def _model(both: Both) -> str:
    """The model in a few sentences."""
    if both.down.worn is None:
        return f"{_TOO_SHORT} {_LEVELS}"
    where = _ON_HEM if both.hanging.on_hem else _ON_SIDES
    model = _MODEL.format(level=_UNKNOWN if both.hanging.freedom is None else where)
    return " ".join(filter(None, (model, _LEVELS, shades_in_words(both.hanging.garment))))


def sources_words(result: Result, body: Proportioned) -> str:
    """Which measurements are not the size's own, and which are no measurements at all."""
    clauses = []
    for origin, words in ((Origin.AGE_TABLE, "borrowed from the age table"), (Origin.ESTIMATE, "estimated")):
        names = [each.words for each in body.borrowed if result.wearer.values[each].origin is origin]
        if names:
            clauses.append(f"{words}: {', '.join(names)}")
    filled = "".join(f", {each.words}" for each in body.filled)
    clauses.append(f"drawn from proportions: {_ALWAYS}{filled}")
    return sentence_case(f"{'; '.join(clauses)}.")


def _set(heading: str, texts: Sequence[str], width: float, stopped: Result | None = None) -> Block:
    stops = stops_of(stopped) if stopped else ()
    text = TextBlock(STOPPED_HEADING if stops else heading, width)
    if stops:
        text.add(stops, _BETWEEN)
        text.head(heading)
    text.add(texts, _BETWEEN)
    return text.block("checks", "worn")
