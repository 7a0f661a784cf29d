"""The commented spec that answers make. Counts are left out: grading finds them."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from schematics.reading.blocks import TURNING_CHAINS
from schematics.reading.new.answers import FULLNESS, Answers, SwatchAnswer, Written, plain_number
from schematics.units import CM_PER_INCH, Unit

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9' -]*[A-Za-z0-9]")
_PLAIN_VALUE = re.compile(r"-?[0-9][0-9./ %]*(cm|mm|in)?")
_WORDS_WITH_A_MEANING = {"true", "false", "null", "yes", "no", "on", "off"}

_WRIST_PART = 1.15
_FRONT_SHARE = 0.21
_NECK_WIDTH_PART, _OPENING_PART = 0.35, 1.07
"""Shares of body measurements that sit well (common practice, no source): arm ribbing of the wrist, the hem
from the front seam to the arm run of the whole hem, a folded body's neck of the head, its arm opening of the
hand."""
_NECK_DEPTHS_CM = {"body.neck_front": 5.0, "body.neck_back": 2.0}


def spec_text(answers: Answers) -> str:
    """The whole file."""
    return "\n".join([*_head(answers), *_fabrics(answers), *_grading(answers), *_sizes(answers)]) + "\n"


def _head(answers: Answers) -> Iterator[str]:
    yield "# Counts are left out here: 'schematics grade FILE' finds them, '--write' puts them in. A count"
    yield "# that you write into a size yourself stays as it is, and the others are found around it."
    yield f"title: {_text(answers['title'])}"
    yield f"unit: {answers['unit'].value}   # of bare numbers; a length may carry its own: 8 in, 20 cm"
    yield f"construction: {answers['construction']}"
    yield f"yarn: {{name: {_text(answers['yarn'])}}}   # weight, ball_mass and ball_length may be added"
    yield ""


def _fabrics(answers: Answers) -> Iterator[str]:
    yield "# Wash and dry each swatch before you measure it. Stretch is what the fabric gives, pulled by"
    yield "# hand; heads and hands pass or do not by it, so pull your own and correct these."
    yield "fabrics:"
    yield from _fabric("main", answers["stitch"], answers["swatch"], answers["stretch"])
    yield from _fabric("panel", answers["panel_stitch"], answers["panel_swatch"], answers["panel_stretch"])
    if multiple := answers["multiple"]:
        of, plus = multiple
        yield f"    multiple: {{of: {of}, plus: {plus}}}   # stitches: {of} times any number, plus {plus}"
    if repeat := answers["row_repeat"]:
        setup, rows, closing = repeat
        yield f"    row_repeat: {{rows: {rows}, setup: {setup}, closing: {closing}}}"
    yield from _fabric("rib", answers["rib_stitch"], answers["rib_swatch"], answers["rib_stretch"])
    yield "parts: {body: main, centre_panel: panel, neck_band: rib, arm_bands: rib}"
    yield ""


def _fabric(name: str, stitch: str, swatch: SwatchAnswer, stretch: tuple[str, str]) -> Iterator[str]:
    across, along = stretch
    mass = f", mass: {swatch.mass}" if swatch.mass else ""
    yield f"  {name}:"
    yield f"    stitch: {_text(stitch)}"
    if swatch.guessed:
        yield "    # GUESSED from the body's swatch: work one in this stitch and correct the next line."
    yield (
        f"    swatch: {{stitches: {plain_number(swatch.stitches)}, rows: {plain_number(swatch.rows)}, "
        f"width: {_value(swatch.width)}, height: {_value(swatch.height)}{mass}}}"
    )
    yield f"    stretch: {{across: {across}, along: {along}}}"
    yield f"    turning_chains: {_turning_chains(stitch)}   # chains skipped at the turn"


def _turning_chains(stitch: str) -> int:
    """Those of the stitch that is named in it, the longest name first; one where none is."""
    named = [name for name in sorted(TURNING_CHAINS, key=len, reverse=True) if name in stitch.casefold()]
    return TURNING_CHAINS[named[0]] if named else 1


def _grading(answers: Answers) -> Iterator[str]:
    yield "# How it should fit. Each line is a finished measurement: a length, or a body measurement of the"
    yield "# size's wearer, times 'part', plus 'ease'. Grading comes as near as the rules let it."
    yield "grading:"
    if answers.get("increases"):
        yield f"  increases: {answers['increases']}   # regular: said in one line; exact: an even taper"
    yield "  intent:"
    intents = _folded(answers) if answers["construction"] == "folded" else _neck_down(answers)
    lines = [(f"    {key}: {value}", words) for key, value, words in (*intents, *_bands(answers))]
    width = max(len(line) for line, _ in lines)
    yield from (f"{line:<{width}}   # {words}" if words else line for line, words in lines)
    yield ""


_Intent = tuple[str, str, str]


def _bands(answers: Answers) -> Iterator[_Intent]:
    neck = f"{{measure: head_girth, ease: {_value(answers['neck_ease'])}}}"
    yield "neck.edge", neck, "at rest, panel included"
    yield "neck_band.depth", _value(answers["neck_band"]), ""
    yield "arm_band.depth", _value(answers["arm_bands"]), ""
    yield "panel.width", _value(answers["panel_width"]), ""


def _neck_down(answers: Answers) -> Iterator[_Intent]:
    hem, _ = FULLNESS[answers["fullness"]]
    ease = _value(answers["below_waist"])
    yield "body.depth", f"{{measure: back_waist_length, ease: {ease}}}", "nape to waist, and on to the hem"
    yield (
        "body.hem",
        f"{{measure: centre_back_neck_to_wrist, part: {hem:g}}}",
        _fullness(answers["fullness"], 0),
    )
    yield (
        "arm.from_front",
        f"{{measure: centre_back_neck_to_wrist, part: {hem * _FRONT_SHARE:.2g}}}",
        "hem between front seam and arm run",
    )
    yield "arm_band.length", f"{{measure: wrist_girth, part: {_WRIST_PART}}}", "round the hand, unstretched"


def _folded(answers: Answers) -> Iterator[_Intent]:
    _, width = FULLNESS[answers["fullness"]]
    unit: Unit = answers["unit"]
    down = {key: _in_unit(cm, unit) for key, cm in _NECK_DEPTHS_CM.items()}
    ease = _in_unit(answers["below_waist"].cm + _NECK_DEPTHS_CM["body.neck_back"], unit)
    drop = f"{{measure: back_waist_length, ease: {ease}}}"
    yield (
        "body.width",
        f"{{measure: centre_back_neck_to_wrist, part: {width:g}}}",
        _fullness(answers["fullness"], 1),
    )
    yield "body.back", drop, "from the shoulder fold; the back neck is in it"
    yield "body.front", drop, ""
    yield "body.neck_width", f"{{measure: head_girth, part: {_NECK_WIDTH_PART}}}", ""
    yield from ((key, depth, "") for key, depth in down.items())
    yield "body.slot", _value(answers["panel_width"]), "as wide as the panel that fills it"
    yield "arm.opening", f"{{measure: hand_girth, part: {_OPENING_PART}}}", "half of it on the front"


def _fullness(word: str, index: int) -> str:
    others = [f"{each} {parts[index]:g}" for each, parts in FULLNESS.items() if each != word]
    return f"{word}; {', '.join(others)}"


def _sizes(answers: Answers) -> Iterator[str]:
    yield "# Rows of 'schematics wearers'. Your own measurements may be added, and win: {chart: child/6,"
    yield "# head_girth: 53 cm}."
    yield "sizes:"
    body = f", body: {{lines: {answers['lines']}}}" if answers["construction"] == "mitred" else ""
    for name, row in size_names(answers["sizes"]).items():
        yield f"  {json.dumps(name)}: {{wearer: {row}{body}}}"


def size_names(rows: Sequence[str]) -> Mapping[str, str]:
    """Each row by a size's name: what stands after the stroke, or all of it where two have that."""
    short = Counter(row.partition("/")[2].casefold() for row in rows)
    return {
        row.partition("/")[2] if short[row.partition("/")[2].casefold()] == 1 else row.replace("/", " "): row
        for row in rows
    }


def _in_unit(length_cm: float, unit: Unit) -> str:
    return f"{round(length_cm / CM_PER_INCH * 4) / 4:g}" if unit is Unit.IN else f"{round(length_cm, 1):g}"


def _value(length: Written) -> str:
    return length.text if _PLAIN_VALUE.fullmatch(length.text) else json.dumps(length.text, ensure_ascii=False)


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text) and text.casefold() not in _WORDS_WITH_A_MEANING:
        return text
    return json.dumps(text, ensure_ascii=False)
