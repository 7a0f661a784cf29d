"""What becomes of a finished poncho, as a document for its maker."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.measurements import questions_json
from schematics.analysis.side_effects import together
from schematics.checks.certainty import chance_words
from schematics.checks.rules.sentence import Answer
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.design.design import PIECE_OF
from schematics.document.common import cautions_section
from schematics.document.document import NONE, Block, Document, Items, Section, Table
from schematics.document.json_text import number
from schematics.fitting.advice_words import NOTHING_LEFT, worn_sentence
from schematics.fitting.changed_json import changed_json
from schematics.fitting.fit_report import questions_sections
from schematics.fitting.report_json import head_and_cautions, size_json
from schematics.fitting.rescue.measured_piece import off_words
from schematics.fitting.rescue.repair_steps import repair_steps
from schematics.fitting.rescue.repairs import Repair
from schematics.fitting.rescue.rescue import Rescue
from schematics.fitting.sizing import SizeFit
from schematics.fitting.whom_for import whom_for
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.printed_lengths import finished_figure, grain_of
from schematics.units import figure


def rescue_document(rescue: Rescue) -> Document:
    """What was measured, whether it can be worn, what mends it, whom it fits, and how it was reckoned."""
    return Document(
        title=f"{rescue.design.title}, size {rescue.size.name}, as it came out",
        sections=(
            _measured_section(rescue),
            Section("Can it be worn as it is?", tuple(_verdict(rescue))),
            *questions_sections(rescue.wearer, rescue.design.unit),
            *_repair_sections(rescue),
            Section(_WHOM[rescue.wearable], rescue.fits.sentences(another=not rescue.wearable)),
            _finished_section(rescue),
        ),
        closing=(cautions_section(),),
        data=lambda: _json(rescue),
    )


def _measured_section(rescue: Rescue) -> Section:
    unit = rescue.design.unit
    table = Table(
        header=("", f"yours, {unit.words}", "in the pattern", ""),
        rows=tuple(
            (
                each.pattern.name,
                figure(each.length_cm, unit, grain_of(each.pattern.key)),
                finished_figure(each.pattern, unit),
                off_words(each.ratio),
            )
            for each in rescue.measured.lengths
        ),
    )
    return Section("What you measured", (table, *_notes(rescue)))


def _notes(rescue: Rescue) -> tuple[str, ...]:
    """What is in doubt of what was measured, and how what was not is taken."""
    measured = rescue.measured
    return (*measured.disagreements(), *measured.taken(rescue.design.parts))


def _verdict(rescue: Rescue) -> Iterator[Block]:
    wearer = rescue.wearer
    whom = "the wearer you told of" if rescue.given else f"the wearer size {rescue.size.name} is meant for"
    yield f"Held against {whom} ({whom_for(wearer.label)})."
    left = _finding_sentences(rescue.fit)
    unknown = any(point.answer is Answer.UNKNOWN for point in rescue.fit.points)
    how = rescue.fit.how
    sentence = worn_sentence(how, unknown=unknown)
    yield f"{sentence} {_TRY_ON}" if how == "unsure" else sentence
    if left:
        yield Items(left)
    if left and unknown:
        yield f"Not all could be judged, for want of a measurement. {_TRY_ON}"


_WHOM = {True: "Whom it fits as it is", False: "Whom else it fits as it is"}
_TRY_ON = "Try it on: that tells more than any figure."


def _finding_sentences(fit: SizeFit) -> tuple[str, ...]:
    """The findings to print, each with how sure it is; what to measure is not, of what can be tried on."""
    return tuple(each.sure_sentence for each in fit.reported)


def _repair_sections(rescue: Rescue) -> Iterator[Section]:
    if not rescue.fit.reported or (rescue.fit.to_be_sure and not rescue.repairs):
        return
    if not any(each.mended for each in rescue.repairs):
        better = " What follows makes it better." if rescue.repairs else ""
        kept = CONSTRUCTIONS[rescue.design.construction].kept_words
        yield Section("What would mend it", (f"Nothing small mends it. {kept}{better}",))
    for place, repair in enumerate(rescue.repairs, 1):
        yield _repair_section(rescue, place, repair)


def _repair_section(rescue: Rescue, place: int, repair: Repair) -> Section:
    before, after, design = repair.before.at_gauge, repair.after.at_gauge, rescue.design
    changes = [each.words for each in count_changes(before.size, after.size, design)]
    left = _finding_sentences(repair.after)
    guessed = repair.at_pattern_gauge - {PIECE_OF[each.part] for each in rescue.measured.lengths}
    odds = (
        "" if repair.holds is None else f"; the least sure of it then holds in {chance_words(repair.holds)}"
    )
    work = f"{_stitches(repair.unpicked)} to unpick, {_stitches(repair.worked)} to work anew"
    return Section(
        f"Repair {place}: {work}{odds}",
        (
            *([_measure_first(sorted(guessed))] if guessed else ()),
            *([_HARDLY_WORTH] if repair.hardly_worth_it else ()),
            *([f"Against what was worked: {listed(changes)}."] if changes else ()),
            Items(repair_steps(design, repair)),
            together(before, after, Tape(design.unit)),
            *([_UNSURE if repair.mended else _LEFT, Items(left)] if left else [NOTHING_LEFT]),
        ),
    )


_HARDLY_WORTH = (
    "That is much of the poncho to work anew for what may well not fit after all: think of a new one, or of "
    "whom it fits."
)
_LEFT = "Checked again; this is left to mind:"
_UNSURE = (
    "Checked again: as far as it is measured nothing is left, but that is not sure. Try it on before the "
    "last ends are woven in."
)


def _measure_first(pieces: Sequence[str]) -> str:
    it = "it" if len(pieces) == 1 else "they"
    return f"First measure the {listed(pieces)} too: how {it} came out is only taken from the rest."


def _stitches(count: int) -> str:
    """About so many: to ten, or to one below a hundred."""
    about = round(count, -1) if count >= 100 else count
    return f"about {about} stitch{'' if about == 1 else 'es'}" if count else "nothing"


def _finished_section(rescue: Rescue) -> Section:
    unit = rescue.design.unit
    own = {each.pattern.key: each.length_cm for each in rescue.measured.lengths}
    pairs = zip(rescue.fit.at_gauge.garment.finished, rescue.pattern.garment.finished, strict=True)
    rows = tuple(
        (
            mine.name,
            figure(own[mine.key], unit, grain_of(mine.key)) if mine.key in own else NONE,
            finished_figure(mine, unit),
            finished_figure(usual, unit),
        )
        for mine, usual in pairs
    )
    table = Table(header=("", "you measured", "reckoned", "in the pattern"), rows=rows)
    return Section(f"How it was reckoned, in {unit.words}", (table,))


def _json(rescue: Rescue) -> dict[str, Any]:
    design = rescue.design
    return {
        **head_and_cautions(design),
        "size": rescue.size.name,
        "measured": [
            {
                "key": each.pattern.key,
                "name": each.pattern.name,
                "cm": number(each.length_cm),
                "pattern_cm": number(each.pattern.length_cm),
            }
            for each in rescue.measured.lengths
        ],
        "notes": list(_notes(rescue)),
        "wearer": rescue.wearer.label,
        "given": rescue.given,
        "questions": questions_json(rescue.wearer, design.unit),
        "wearable": rescue.wearable,
        "as_it_is": size_json(rescue.fit),
        "repairs": [_repair_json(rescue, place, each) for place, each in enumerate(rescue.repairs, 1)],
        "fits_sizes": list(rescue.fits.sizes),
        "fits_sizes_with_care": list(rescue.fits.with_care),
        "fits_from_years": number(rescue.fits.years[0]) if rescue.fits.years else None,
        "fits_until_years": number(rescue.fits.years[1]) if rescue.fits.years else None,
        "fits_ages": [
            {"by": each.by, "from_years": number(each.from_years), "until_years": number(each.until_years)}
            for each in rescue.fits.ages
        ],
    }


def _repair_json(rescue: Rescue, place: int, repair: Repair) -> dict[str, Any]:
    return {
        "number": place,
        "right": repair.right,
        "mended": repair.mended,
        "pieces": sorted(repair.pieces),
        "at_pattern_gauge": sorted(repair.at_pattern_gauge),
        "unpicked_stitches": repair.unpicked,
        "worked_stitches": repair.worked,
        "steps": list(repair_steps(rescue.design, repair)),
        **changed_json(rescue.design, repair.before, repair.after),
    }
