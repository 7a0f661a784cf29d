"""The commented spec that answers make. Counts are left out: grading finds them."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from schematics.crochet.plain_stitch import plain_stitch
from schematics.crochet.stitches import TURNING_CHAINS
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.starting import StartIntent, WishedFit, of_body
from schematics.reading.new.answers import Answers, StretchAnswer, SwatchAnswer, plain_number

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9' -]*[A-Za-z0-9]")
_WORDS_WITH_A_MEANING = {"true", "false", "null", "yes", "no", "on", "off"}


def spec_text(answers: Answers) -> str:
    """The text of the whole spec."""
    return "\n".join([*_head(answers), *_fabrics(answers), *_grading(answers), *_sizes(answers)]) + "\n"


def _head(answers: Answers) -> Iterator[str]:
    yield "# Counts are left out here: 'schematics grade FILE' finds them, '--write' puts them in. A count"
    yield "# that you write into a size yourself stays as it is, and the others are found around it."
    yield f"title: {_text(answers['title'])}"
    yield f"unit: {answers['unit'].value}   # of bare numbers; a length may carry its own: 8 in, 20 cm"
    yield f"construction: {answers['construction']}"
    yield f"yarn: {{name: {_text(answers['yarn'])}}}   # fibre, weight, ball_mass, ball_length may be added"
    yield from _hook(answers["hook"], "", "   # of every fabric without one of its own")
    yield ""
    yield from _publication(answers)


def _publication(answers: Answers) -> Iterator[str]:
    designer, level, seam = (answers[key] for key in ("designer", "level", "seam"))
    yield "# What the written pattern needs besides its figures; 'schematics check' lists what is left out."
    yield f"pattern: {'' if designer or level or seam else '{}'}".rstrip()
    if designer:
        yield f"  designer: {_text(designer)}"
    if level:
        yield f"  level: {level.value}"
    if seam:
        sides = f", sides: {_text(seam.sides.value)}" if seam.sides else ""
        yield f"  seam: {{stitch: {seam.stitch.value}{sides}}}"
    yield "  # copyright, notions, care, notes and photos may be added"
    yield ""


def _hook(hook: str | None, indent: str, comment: str = "") -> Iterator[str]:
    if hook:
        yield f"{indent}hook: {hook}{comment}"


def _fabrics(answers: Answers) -> Iterator[str]:
    yield "# Wash and dry each swatch before you measure it. Stretch is what the fabric gives, pulled by"
    yield "# hand; heads and hands pass or do not by it. What says 'guessed: true' is a guess, and marked so"
    yield "# wherever it is printed: measure your own, correct the figures, and delete those words."
    yield "fabrics:"
    yield from _fabric("main", answers["stitch"], answers["swatch"], answers["stretch"])
    yield from _fabric("panel", *(answers[f"panel_{key}"] for key in ("stitch", "swatch", "stretch", "hook")))
    if multiple := answers["multiple"]:
        of, plus = multiple
        yield f"    multiple: {{of: {of}, plus: {plus}}}   # stitches: {of} times any number, plus {plus}"
    if repeat := answers["row_repeat"]:
        setup, rows, closing = repeat
        yield f"    row_repeat: {{rows: {rows}, setup: {setup}, closing: {closing}}}"
    yield from _fabric("rib", *(answers[f"rib_{key}"] for key in ("stitch", "swatch", "stretch", "hook")))
    yield "parts: {body: main, centre_panel: panel, neck_band: rib, arm_bands: rib}"
    yield ""


def _fabric(
    name: str, stitch: str, swatch: SwatchAnswer, stretch: StretchAnswer, hook: str | None = None
) -> Iterator[str]:
    mass = f", mass: {swatch.mass}" if swatch.mass else ""
    yield f"  {name}:"
    yield f"    stitch: {_text(stitch)}"
    yield from _hook(hook, "    ")
    yield (
        f"    swatch: {{stitches: {plain_number(swatch.stitches)}, rows: {plain_number(swatch.rows)}, "
        f"width: {swatch.width.yaml}, height: {swatch.height.yaml}{mass}"
        f"{_guessed(swatch.guessed)}}}"
    )
    yield (f"    stretch: {{across: {stretch.across}, along: {stretch.along}{_guessed(stretch.guessed)}}}")
    chains = str(_turning_chains(stitch))
    if plain_stitch(stitch) is None:
        chains = f"{{chains: {chains}{_guessed(guess=True)}}}"
    yield f"    turning_chains: {chains}   # chains skipped at the turn"


def _guessed(guess: bool) -> str:
    return ", guessed: true" if guess else ""


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
    wished = WishedFit(**{key: answers[key] for key in ("unit", "fullness", "below_waist", "panel_width")})
    intents = CONSTRUCTIONS[answers["construction"]].start_intents(wished)
    lines = [(f"    {key}: {value}", words) for key, value, words in (*intents, *_bands(answers))]
    width = max(len(line) for line, _ in lines)
    yield from (f"{line:<{width}}   # {words}" if words else line for line, words in lines)
    yield ""


def _bands(answers: Answers) -> Iterator[StartIntent]:
    yield "neck.edge", of_body("head_girth", ease=answers["neck_ease"].yaml), "at rest, panel included"
    yield "neck_band.depth", answers["neck_band"].yaml, ""
    yield "arm_band.depth", answers["arm_bands"].yaml, ""
    yield "panel.width", answers["panel_width"].yaml, ""


def _sizes(answers: Answers) -> Iterator[str]:
    yield "# Rows of 'schematics wearers'. Your own measurements may be added, and win: {chart: child/6,"
    yield "# head_girth: 53 cm}."
    yield "sizes:"
    settings = CONSTRUCTIONS[answers["construction"]].settings
    given = ", ".join(f"{each.key}: {answers[each.key]}" for each in settings)
    body = f", body: {{{given}}}" if given else ""
    for name, row in size_names(answers["sizes"]).items():
        yield f"  {json.dumps(name)}: {{wearer: {row}{body}}}"


def size_names(rows: Sequence[str]) -> Mapping[str, str]:
    """Each row by a size's name: what follows the stroke, or all of it where two have that."""
    short = {row: row.partition("/")[2] for row in rows}
    times = Counter(map(str.casefold, short.values()))
    return {
        name if times[name.casefold()] == 1 else row.replace("/", " "): row for row, name in short.items()
    }


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text) and text.casefold() not in _WORDS_WITH_A_MEANING:
        return text
    return json.dumps(text, ensure_ascii=False)
