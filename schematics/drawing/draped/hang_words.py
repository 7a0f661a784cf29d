"""What stands under the pictures of how a size hangs: hem heights on cloth beside those of the checks."""

from __future__ import annotations

from schematics.checks.evaluation import Result
from schematics.checks.rules import hang
from schematics.checks.rules.hang import worn_cm
from schematics.checks.tape import Tape
from schematics.design.design import Design
from schematics.drawing.draped.hang_drawing import HemDrops, SeenHung
from schematics.drawing.pieces.piece_texture import shades_in_words
from schematics.drawing.worn.worn_figures import DOWN, LEVEL
from schematics.drawing.worn.worn_words import findings_words, sources_words
from schematics.wearer.proportions import Proportioned

HEADING = "Hung as cloth on a plain body, not a fitting"

FOLDS = "How folds fall can shift a hem by some centimetres."

_MODEL = (
    "Pieces as heavy and stretchy as the swatches, of usual stiffness and friction, on the typical body of "
    f"the size. {FOLDS}"
)
_WHICH = "go by the longer above the knee, by the shorter below the waist"


def hang_words(design: Design, result: Result, body: Proportioned, seen: SeenHung) -> list[str]:
    """The model, the hem in both poses, what the checks say of knee and arms, and where the body is from."""
    reckoned = Tape(design.unit).length(worn_cm(result.garment.drop_cm, design.limits))
    down, level = hem_words(design, seen)
    return [
        " ".join(filter(None, (_MODEL, shades_in_words(result.garment)))),
        f"{down}; the checks, which know no folds and lay the neck edge on the nape, reckon with {reckoned}: "
        f"{_WHICH}.",
        f"{level}.",
        *findings_words(result, always=(hang.KNEE,)),
        sources_words(result, body),
    ]


def hem_words(design: Design, seen: SeenHung) -> tuple[str, str]:
    """How far the hem hangs with the arms down, and level; without full stops."""
    tape, level = Tape(design.unit), seen.drops[LEVEL]
    waist = seen.size.nape_height_cm - seen.size.waist_height_cm
    raised = f"{_hem_words(tape, 'Arms level', level)}, {_highest_words(tape, level, waist)}"
    return _hem_words(tape, "Arms down", seen.drops[DOWN]), raised


def _hem_words(tape: Tape, pose: str, drops: HemDrops) -> str:
    front, side, back = map(tape.length, (drops.front, drops.side, drops.back))
    return f"{pose}, the hem hangs {front} below the nape in front, {side} at the side and {back} at the back"


def _highest_words(tape: Tape, drops: HemDrops, waist_cm: float) -> str:
    """Where its higher middle comes on the body."""
    where, drop = min(("in front", drops.front), ("at the back", drops.back), key=lambda each: each[1])
    side = "below" if drop >= waist_cm else "above"
    return f"and comes {where} {tape.length(abs(drop - waist_cm))} {side} the waist"
