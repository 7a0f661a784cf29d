"""The pages and files for makers, each made from a design and what was answered, and from nothing else.

Every function here is run in a process of its own; none lets an error of the program's out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.design.guessed import guessed
from schematics.design.missing import missing
from schematics.document.html import blocks_html, picture_address
from schematics.document.page_look import PageLook
from schematics.drawing.bare.on_figure import figure_picture, worn_drawing
from schematics.drawing.ink.sheet import PAPERS, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.errors import SchematicsError
from schematics.fitting.page.guide_figures import view_svg
from schematics.fitting.page.guide_words import HOW, NUMBERS
from schematics.fitting.page.page_data import asked as guide_views
from schematics.fitting.stretch_text import STRETCH_EXAMPLE
from schematics.fitting.to_measure.asked_changes import NONE_ASKED
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure, doubted, made_to_measure
from schematics.fitting.to_measure.order import NotWearableError
from schematics.fitting.to_measure.poncho_pattern import poncho_pattern
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.library.web.maker_answers import (
    APART,
    FIELDS,
    GRADED,
    OFFERED,
    AnswersError,
    asked_design,
    asked_paper,
    by_field,
    read_order,
    swatch_fields,
)
from schematics.library.web.pages import rendered
from schematics.library.web.reply import PAGE, PDF, Reply
from schematics.pattern.pattern_files import document_content, page_look
from schematics.wearer.asking import ASKED_HEADING
from schematics.wearer.body import Body

FIRST = ("age", "height", "head_girth")
"""The measurements that are asked for first; the others are to be sure."""
FORMS: Mapping[str, str] = {"pdf": PDF, "html": PAGE}
"""The forms in which a pattern is handed out, and their media types."""


def not_ready(design: Design) -> str:
    """What a pattern still lacks before makers may have it; empty where it may be handed out."""
    lacks = *(each.what for each in guessed(design)), *(each.what for each in missing(design))
    return ", ".join(dict.fromkeys(lacks))


def designs_page(designs: Sequence[Design]) -> Reply:
    """The first page: which design."""
    return rendered("designs.html.j2", designs=cards(designs), drafts=())


def cards(designs: Sequence[Design]) -> list[dict[str, Any]]:
    """Each design as the first page shows it."""
    return [_card(design) for design in designs]


def _card(design: Design) -> dict[str, Any]:
    results = evaluate(design)
    names = [result.size.name for result in results]
    return {
        "slug": design.slug,
        "title": design.title,
        "sizes": f"sizes {names[0]} to {names[-1]}" if len(names) > 1 else f"size {names[0]}",
        "yarn": design.yarn.name,
        "picture": _picture(figure_picture(design, results[len(results) // 2])),
    }


def questions_page(design: Design) -> Reply:
    """The form of a design with nothing answered."""
    return rendered("questions.html.j2", form=_form(design, {}, {}))


def answer_page(design: Design, given: Mapping[str, str]) -> Reply:
    """What fits and how to come by the pattern, or the form again with what is wrong beside each field."""
    poncho = _poncho_or_form(design, given)
    if isinstance(poncho, Reply):
        return poncho
    document = poncho_document(poncho)
    verdict, *sections = (*document.sections, *document.closing)
    return rendered(
        "answer.html.j2",
        form=_form(design, given, {}),
        title=document.title,
        lead=document.lead,
        verdict=blocks_html(verdict, 3),
        mind=bool(poncho.fit.reported or poncho.fit.unknown),
        picture=_picture(worn_drawing(poncho.design, poncho.result)),
        narrow=_picture(figure_picture(poncho.design, poncho.result)),
        sections=[(each.heading, blocks_html(each, 3)) for each in sections],
        answers=_answers(given),
        offered=_offered(poncho),
        offer=poncho.fit.how in ("mind", "stop") and given.get("change") != GRADED,
    )


def _offered(poncho: MadeToMeasure) -> str:
    """How changes that were not made are asked for; empty where there are none, or too many for the field."""
    words = APART.join(poncho.asks_for_not_made)
    return words if len(words) <= FIELDS[OFFERED] else ""


def _answers(given: Mapping[str, str]) -> list[tuple[str, str]]:
    return [(field, given[field]) for field in FIELDS if given.get(field)]


def pattern_reply(design: Design, given: Mapping[str, str], form: str) -> Reply:
    """The pattern in one of `FORMS`, or the form again with what is wrong beside each field."""
    poncho = _poncho_or_form(design, given)
    if isinstance(poncho, Reply):
        return poncho
    document = poncho_pattern(poncho, form)
    look: PageLook = page_look(poncho.design, PAPERS[asked_paper(given)])
    name = f" {poncho.order.name}" if poncho.order.name else ""
    return Reply(
        content=document_content(document, form, look),
        media_type=FORMS[form],
        filename=f"{design.slug}{name}.{form}" if form == "pdf" else "",
        alone=True,
    )


def _poncho_or_form(design: Design, given: Mapping[str, str]) -> MadeToMeasure | Reply:
    asked = asked_design(design, given)
    try:
        order = read_order(asked, given)
        return made_to_measure(asked, order)
    except AnswersError as error:
        return rendered("questions.html.j2", status=422, form=_form(design, given, error.by_field))
    except NotWearableError as error:
        offer = given.get("change") != GRADED
        form = _form(design, given, {})
        values: dict[str, Any] = {
            "sentence": str(error),
            "offer": offer,
            "asked": ASKED_HEADING,
            "doubts": doubted(asked, order),
        }
        return rendered("not_made.html.j2", form=form, answers=_answers(given), **values)
    except SchematicsError as error:
        return rendered("questions.html.j2", status=422, form=_form(design, given, by_field(error)))


def _form(design: Design, given: Mapping[str, str], problems: Mapping[str, str]) -> dict[str, Any]:
    """What the form shows: the fields, what was typed into them, and what is wrong with it."""
    asked = asked_design(design, given)
    body = design.parts.body
    views = _views(design)
    more = [field for view in views for field in view["bodies"]]
    swatches = swatch_fields(asked)
    return {
        "slug": design.slug,
        "design": design.title,
        "given": {field: given.get(field, "") for field in FIELDS},
        "problems": problems,
        "labels": LABELS
        | {each.value: each.words for each in Body}
        | {field: f"swatch for the {design.parts.named_for(fabric)}" for field, fabric in swatches.items()},
        "longest": FIELDS,
        "unit": asked.unit.value,
        "span": asked.unit.gauge_span[1],
        "how": {each.value: HOW[each] for each in Body},
        "numbers": {each.value: NUMBERS[each] for each in Body},
        "views": views,
        "first": FIRST,
        "more_open": any(given.get(key) or key in problems for key in more),
        "swatches": [(field, {"stitch": fabric.stitch}) for field, fabric in swatches.items()],
        "swatches_open": any(given.get(key) or key in problems for key in ("stretch", *swatches)),
        "stretch": STRETCH_EXAMPLE.strip("'"),
        "fabric": {"parts": design.parts.named_for(body), "stitch": body.stitch},
        "yarn": design.yarn,
        "sizes": [size.name for size in design.sizes],
        "graded": GRADED,
        "none": NONE_ASKED,
    }


LABELS = {
    "": "What was answered",
    "unit": "Unit",
    "age": "age",
    "stitches": "stitches",
    "rows": "rows",
    "over": "counted over",
    "stretch": "how far it gives",
    "yarn": "name of the yarn",
    "ball_mass": "how heavy a ball is",
    "ball_length": "how long a ball is",
    "name": "name of the child",
    "size": "size",
    "change": "counts",
    "paper": "paper",
}
"""What fields are called; measurements have the names that they have everywhere."""


def _views(design: Design) -> list[dict[str, Any]]:
    """The drawings of where to measure, with the measurements that are asked for besides the first."""
    views = []
    for view in guide_views(design):
        bodies = [body for body in view.bodies if body.value not in FIRST]
        views.append(
            {
                "title": view.title,
                "drawing": view_svg(view, bodies),
                "bodies": [body.value for body in bodies],
            }
        )
    return views


def _picture(sheet: Sheet | None) -> dict[str, str] | None:
    return None if sheet is None else {"address": picture_address(to_svg(sheet)), "shows": sheet.description}
