"""The page as one self-contained file: no request, nothing tracked, nothing kept unasked.

The policy in its head lets the browser run the one script and use the one style it carries, by their
hashes, and nothing else, wherever the file is opened.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from markupsafe import Markup

from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import Result
from schematics.design.cautions import CAUTIONS, HEADING
from schematics.design.design import Design
from schematics.design.guessed import guessed_sentence
from schematics.document.html import page_environment, screen_style
from schematics.drawing.pieces.figures_look import measurement_letters
from schematics.fitting.page.guide_figures import view_svg
from schematics.fitting.page.guide_words import HOW, NUMBERS
from schematics.fitting.page.outlines import outlines
from schematics.fitting.page.page_data import asked, page_data
from schematics.fitting.page.page_terms import in_terms, page_in_terms
from schematics.fitting.progress import PIECES
from schematics.fitting.stretch_text import STRETCH_EXAMPLE
from schematics.fitting.under_three import WORDS as CAREFUL_WORDS
from schematics.fitting.whom_for import whom_for
from schematics.garment.printed_lengths import finished_figure, grain_of
from schematics.units import Unit
from schematics.wearer.body import Body

Json = dict[str, Any]

SCRIPTS = (
    "trees.js",
    "garment.js",
    "numbers.js",
    "ages.js",
    "wearer.js",
    "rules.js",
    "normal.js",
    "events.js",
    "sureness.js",
    "questions.js",
    "entries.js",
    "verdict_words.js",
    "certainty.js",
    "making.js",
    "verdicts.js",
    "cards.js",
    "figure.js",
    "drawn.js",
    "steps.js",
    "counts.js",
    "halfway.js",
    "page.js",
)
"""The parts of the script, in order; together they are one function."""


def fit_page(design: Design, results: Sequence[Result]) -> str:
    """The page of a design's results, those of every size; every text in it is escaped."""
    data = in_terms(page_data(design, results), design.terms)
    style, script = Markup(screen_style() + asset("fit.css")), _script()
    body = design.parts.body
    page = (
        page_environment("schematics.fitting.page")
        .get_template("fit.html.j2")
        .render(
            policy=_policy(style, script),
            style=style,
            script=script,
            data=_embedded(data),
            title=design.title,
            date=design.date.isoformat() if design.date else None,
            unit=design.unit.value,
            sizes=", ".join(result.size.name for result in results),
            views=list(_views(design)),
            head=_asked(Body.HEAD_GIRTH),
            height=_asked(Body.HEIGHT),
            worked=list(PIECES.values()),
            careful=CAREFUL_WORDS,
            guessed=guessed_sentence(design),
            stretch=STRETCH_EXAMPLE.strip("'"),
            gauge={"parts": design.parts.named_for(body), "stitch": body.stitch},
            swatches=list(_other_swatches(design)),
            finished=list(_finished(results)),
            checks=[EXPLANATIONS[code] for code in _codes(data)],
            before=HEADING,
            cautions=CAUTIONS,
            terms=design.terms.value,
        )
    )
    return page_in_terms(page, design.terms)


def _asked(body: Body) -> Json:
    return {"key": body.value, "name": body.words, "number": NUMBERS[body], "how": HOW[body]}


def _other_swatches(design: Design) -> Iterator[Json]:
    for place, fabric in enumerate(design.parts.fabrics.values()):
        if fabric.name != design.parts.body.name:
            parts = design.parts.named_for(fabric)
            yield {"place": place, "stitch": fabric.stitch, "parts": parts}


def _views(design: Design) -> Iterator[Json]:
    for view in asked(design):
        yield {
            "title": view.title,
            "bodies": [_asked(body) for body in view.bodies],
            "key": view.key,
            "drawing": view_svg(view, view.bodies, named=True),
        }


def _finished(results: Sequence[Result]) -> Iterator[Json]:
    named = measurement_letters(results)
    for result, drawings in zip(results, outlines(results), strict=True):
        yield {
            "name": result.size.name,
            "wearer": whom_for(result.wearer.label),
            "drawings": drawings,
            "rows": [
                {
                    "key": item.key,
                    "letter": named.get(item.key, ""),
                    "name": item.name,
                    "grain": grain_of(item.key).value,
                    "cm": finished_figure(item, Unit.CM),
                    "inches": finished_figure(item, Unit.IN),
                    "count": "" if item.count is None else f"{item.count} {item.counted}",
                }
                for item in result.garment.finished
            ],
        }


def _codes(data: Json) -> list[str]:
    """The codes the page may show, in the order of the checks."""
    shown = {rule["code"] for rule in data["rules"]["rules"]}
    shown |= {each["code"] for size in data["sizes"] for each in size["pattern"]}
    return [code for code in EXPLANATIONS if code in shown]


def _embedded(data: Json) -> Markup:
    """The data as JSON that no browser takes for markup."""
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)


def _policy(style: str, script: str) -> str:
    """The content security policy: nothing but this style and this script."""
    style_hash, script_hash = (
        base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (style, script)
    )
    return (
        f"default-src 'none'; style-src 'sha256-{style_hash}'; script-src 'sha256-{script_hash}'; "
        "base-uri 'none'; form-action 'none'"
    )


@cache
def _script() -> Markup:
    parts = "\n".join(asset(name) for name in SCRIPTS)
    return Markup(f'"use strict";\n(() => {{\n{parts}}})();\n')


def asset(name: str) -> str:
    """The text of a part of the page, by its file's name."""
    return files("schematics.fitting.page").joinpath("templates", name).read_text(encoding="utf-8")
