"""Reading the answers, by the same rules as the spec they go into."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from pydantic import ValidationError
from pydantic_core import PydanticCustomError

from schematics.crochet.fabric import MOST_STRETCH, Swatch, swatch_faults
from schematics.crochet.stitch_list import TRADE
from schematics.design.publication import Level, SeamStyle
from schematics.garment.constructions.starting import BodySetting, Written
from schematics.grading.draft import EXACT, REGULAR
from schematics.reading.grading_block import Ease
from schematics.reading.hook_value import HookValue
from schematics.reading.new.questions import ANY, EXAMPLES, STRETCHES, offered
from schematics.reading.problems import listed, show_value
from schematics.reading.publication_block import SeamBlock, WordOf
from schematics.reading.spec_block import LARGEST_COUNT
from schematics.reading.spec_model import MOST_SIZES
from schematics.reading.spec_words import WearerReference, no_construction
from schematics.reading.values import Amount, Context, Fraction, LengthValue, TextValue
from schematics.units import Unit
from schematics.wearer.rows import references

Answers = Mapping[str, Any]
"""What has been answered so far, by the question's key."""

_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,4})?"
_SWATCH = re.compile(
    rf"""\s*(?P<stitches>{_NUMBER})\s*(?:sts?|stitch(?:es)?)\.?\s*(?:,|and|x|×)?
    \s*(?P<rows>{_NUMBER})\s*rows?\s*(?:,|over|to|in|=)
    \s*(?P<width>[^x×,]+?)(?:\s*(?:by|x|×)\s*(?P<height>[^,]+?))?
    (?:\s*,\s*(?P<mass>{_NUMBER})(?:\s*g)?)?\s*""",
    re.VERBOSE | re.IGNORECASE,
)
_STRETCH = re.compile(r"\s*([0-9.]+\s*%?)\s*(?:across)?\s*[,; ]\s*([0-9.]+\s*%?)\s*(?:along)?\s*")
_COUNT = r"[0-9]{1,5}"
_COMMON = ("sc", "hdc", "dc", "tr")
_MULTIPLE = re.compile(rf"\s*({_COUNT})\s*(?:\+\s*({_COUNT}))?\s*")
_REPEAT = re.compile(rf"\s*(?:({_COUNT})\s*\+\s*)?({_COUNT})\s*(?:\+\s*({_COUNT}))?\s*")

RIB_ROWS = 1.15
"""Ribbing rows to a stitch of the body, in length, where the ribbing was not swatched (common practice, no
source)."""


class AnswerError(ValueError):
    """An answer cannot be used; the text says what would be one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchAnswer:
    """A swatch as it is written in the spec."""

    stitches: float
    rows: float
    width: Written
    height: Written
    mass: str = ""
    guessed: bool = False

    def swatch(self) -> Swatch:
        """The swatch itself."""
        return Swatch(
            stitches=self.stitches,
            rows=self.rows,
            width_cm=self.width.cm,
            height_cm=self.height.cm,
            mass_g=float(self.mass) if self.mass else None,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchAnswer:
    """A stretch as it is written in the spec."""

    across: str
    along: str
    guessed: bool = False


def _length(kind: LengthValue | Ease, text: str, so_far: Answers) -> Written:
    """A length after its rule; one in the unit of the spec is written without it."""
    words, unit = " ".join(text.split()), so_far["unit"]
    length_cm = kind.read(words, Context(unit=unit))
    return Written(text=re.sub(rf"\s*{unit.value}$", "", words), cm=length_cm)


def _text(text: str, _: Answers) -> str:
    return TextValue().read(unicodedata.normalize("NFC", text.strip()))


def _stitch(text: str, so_far: Answers) -> str:
    """A stitch's name, the abbreviation of a common one written out."""
    stitch = TRADE.find(text.strip())
    return stitch.words if stitch and stitch.abbreviation in _COMMON else _text(text, so_far)


def _one_of(words: Sequence[str], text: str) -> str:
    word = text.strip().casefold()
    if word not in words:
        raise AnswerError(f"expected {listed(words)}, got {show_value(text)}")
    return word


def _unit(text: str, _: Answers) -> Unit:
    written_out = {"inch": "in", "inches": "in", "centimetres": "cm"}
    return Unit(_one_of(("cm", "in"), written_out.get(text.strip().casefold(), text)))


def _construction(text: str, _: Answers) -> str:
    word = text.strip().casefold()
    if word not in offered():
        raise AnswerError(no_construction(text, offered()))
    return word


def _setting(setting: BodySetting, text: str) -> int:
    if not re.fullmatch(_COUNT, text.strip()) or not setting.low <= int(text) <= setting.high:
        raise AnswerError(
            f"expected a whole number from {setting.low} to {setting.high}, got {show_value(text)}"
        )
    return int(text)


def _swatch(text: str, so_far: Answers) -> SwatchAnswer:
    match = _SWATCH.fullmatch(text) if len(text) <= 120 else None
    if match is None:
        raise AnswerError(
            "expected a swatch such as '19 sts 14 rows over 20 cm' or "
            f"'19 sts 14 rows over 20 x 15 cm, 46 g', got {show_value(text)}"
        )
    width, height = match["width"].strip(), (match["height"] or match["width"]).strip()
    unit = re.search(r"[a-zA-Z\"″]+$", height)
    if unit and not re.search(r"[a-zA-Z\"″]$", width):
        width = f"{width} {unit[0]}"
    if 0 in (float(match["stitches"]), float(match["rows"])):
        raise AnswerError(f"expected more than 0 stitches and rows, got {show_value(text)}")
    answer = SwatchAnswer(
        stitches=float(match["stitches"]),
        rows=float(match["rows"]),
        width=_length(LengthValue(1, 200), width, so_far),
        height=_length(LengthValue(1, 200), height, so_far),
        mass=plain_number(Amount("g", 0.1, 5000).read(float(match["mass"]))) if match["mass"] else "",
    )
    if faults := [words for _, words in swatch_faults(answer.swatch())]:
        raise AnswerError(f"{'; '.join(faults)}, in {show_value(text)}")
    return answer


def plain_number(number: float) -> str:
    """The number to six places, as it may be written in a spec."""
    return f"{number:.6f}".rstrip("0").rstrip(".")


def _own_or_body(text: str, so_far: Answers) -> SwatchAnswer:
    """A fabric's own swatch; that of the body, marked as guessed, where there is none."""
    return _swatch(text, so_far) if text.strip() else replace(so_far["swatch"], mass="", guessed=True)


def _rib(text: str, so_far: Answers) -> SwatchAnswer:
    rib, body = _own_or_body(text, so_far), so_far["swatch"]
    rows = round(RIB_ROWS * body.stitches / body.width.cm * body.height.cm, 1)
    return replace(rib, rows=rows) if rib.guessed else rib


def _stretch_or_usual(key: str, text: str, _: Answers) -> StretchAnswer:
    """A fabric's own stretch; what is usual, marked as guessed, where there is none."""
    return _stretch(text) if text.strip() else replace(_stretch(STRETCHES[key]), guessed=True)


def _stretch(text: str) -> StretchAnswer:
    match = _STRETCH.fullmatch(text)
    if match is None:
        raise AnswerError(f"expected two shares such as '20 % 10 %', got {show_value(text)}")
    across, along = (Fraction(0, MOST_STRETCH).read(_share(each)) for each in match.groups())
    return StretchAnswer(across=f"{plain_number(across * 100)} %", along=f"{plain_number(along * 100)} %")


def _share(text: str) -> str | float:
    try:
        return text if "%" in text else float(text)
    except ValueError:
        raise AnswerError(f"expected a share such as '20 %', got {show_value(text)}") from None


def _multiple(text: str, _: Answers) -> tuple[int, int] | None:
    match = _MULTIPLE.fullmatch(text)
    if text.strip().casefold() == ANY:
        return None
    if match is None or not 1 <= int(match[1]) <= LARGEST_COUNT or int(match[2] or 0) > LARGEST_COUNT:
        raise AnswerError(f"expected a stitch multiple such as '4', '4 + 2' or 'any', got {show_value(text)}")
    return int(match[1]), int(match[2] or 0)


def _row_repeat(text: str, _: Answers) -> tuple[int, int, int] | None:
    match = _REPEAT.fullmatch(text)
    if text.strip().casefold() == ANY:
        return None
    counts = [int(each or 0) for each in match.groups()] if match else []
    if match is None or (match[1] is None) is not (match[3] is None) or not 1 <= counts[1] <= LARGEST_COUNT:
        raise AnswerError(
            "expected a row repeat such as '4', '2 + 4 + 2' (set-up, repeat, closing) or 'any', "
            f"got {show_value(text)}"
        )
    setup, rows, closing = counts
    return setup, rows, closing


def _sizes(text: str, _: Answers) -> tuple[str, ...]:
    names = [" ".join(each.split()) for each in text.split(",") if each.strip()]
    if not names:
        raise AnswerError("expected sizes such as child/2, child/4, child/6")
    order = {name: place for place, name in enumerate(references())}
    rows = [WearerReference().read(_row(name, order)) for name in names]
    if len(set(rows)) < len(rows):
        twice = next(row for row in rows if rows.count(row) > 1)
        raise AnswerError(f"{twice} stands twice; name each size once")
    if len(rows) > MOST_SIZES:
        raise AnswerError(f"a design holds at most {MOST_SIZES} sizes, got {len(rows)}")
    return tuple(sorted(rows, key=lambda row: order.get(row, len(order))))


def _row(name: str, rows: Container[str]) -> str:
    """A row of the chart for a bare size: ``4`` is a child's, ``M`` a woman's."""
    return next((row for row in (f"child/{name}", f"woman/{name.upper()}") if row in rows), name)


def _if_any(reader: Callable[[str, Answers], Any]) -> Callable[[str, Answers], Any]:
    """Reads an answer that may be left out: None where it is."""
    return lambda text, so_far: reader(text, so_far) if text.strip() else None


def _hook(text: str, _: Answers) -> str:
    """A hook as it is written in the spec; a number alone is in mm."""
    words = " ".join(text.split())
    HookValue().read(float(words) if re.fullmatch(_NUMBER, words) else words)
    return words


def _seam(text: str, _: Answers) -> SeamStyle:
    stitch, _comma, sides = (part.strip().casefold() for part in text.partition(","))
    seam = {"stitch": stitch, "sides": sides} if sides else {"stitch": stitch}
    try:
        return SeamBlock.model_validate(seam).seam()
    except ValidationError as error:
        raise AnswerError(error.errors(include_url=False)[0]["msg"]) from None


READERS: Mapping[str, Callable[[str, Answers], Any]] = {
    "title": _text,
    "designer": _if_any(_text),
    "level": _if_any(lambda text, _: WordOf(Level).read(text.strip().casefold())),
    "unit": _unit,
    "construction": _construction,
    "increases": lambda text, _: _one_of((REGULAR, EXACT), text),
    "yarn": _text,
    "hook": _if_any(_hook),
    "stitch": _stitch,
    "swatch": _swatch,
    "stretch": partial(_stretch_or_usual, "stretch"),
    "panel_stitch": _stitch,
    "panel_swatch": _own_or_body,
    "panel_stretch": partial(_stretch_or_usual, "panel_stretch"),
    "panel_hook": _if_any(_hook),
    "multiple": _multiple,
    "row_repeat": _row_repeat,
    "rib_stitch": _stitch,
    "rib_swatch": _rib,
    "rib_stretch": partial(_stretch_or_usual, "rib_stretch"),
    "rib_hook": _if_any(_hook),
    "seam": _if_any(_seam),
    "sizes": _sizes,
    "below_waist": partial(_length, Ease()),
    "fullness": lambda text, so_far: _one_of(list(offered()[so_far["construction"]].fullness), text),
    "neck_ease": partial(_length, Ease()),
    "panel_width": partial(_length, LengthValue(1, 60)),
    "neck_band": partial(_length, LengthValue(0.5, 30)),
    "arm_bands": partial(_length, LengthValue(0.5, 40)),
}
"""How each answer is read that is none of a construction's settings."""


def read(key: str, text: str | None, so_far: Answers) -> Any:
    """The answer to the question of that key.

    Args:
        key: the question's.
        text: what was answered, None where nothing was.
        so_far: the answers to the questions before it.

    Raises:
        AnswerError: it cannot be used, or is missing.
    """
    if text is None:
        without = "; the file's name makes none" if key == "title" else ""
        raise AnswerError(f"it is needed, such as '{EXAMPLES[key]}'{without}")
    try:
        if key in READERS:
            return READERS[key](text, so_far)
    except PydanticCustomError as error:
        raise AnswerError(error.message()) from None
    settings = offered()[so_far["construction"]].settings
    return _setting(next(each for each in settings if each.key == key), text)
