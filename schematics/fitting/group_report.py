"""A group's sizes as a document. Measurements are not repeated in it but where one is asked about."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import zip_longest
from typing import Any

import numpy as np

from schematics.analysis.yarn.need import spare_words
from schematics.checks.certainty import chance_words
from schematics.checks.check_names import check_name, check_names
from schematics.checks.rules.sentence import Answer
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.common import cautions_section, design_title
from schematics.document.csv_text import Value
from schematics.document.document import Block, Document, Items, Section, Table
from schematics.fitting.advice_words import NOT_THIS_CHILDS
from schematics.fitting.deciding import MOST_DECIDED, Decided
from schematics.fitting.fit_keys import GROUP_WEARER
from schematics.fitting.fit_report import gauge_section
from schematics.fitting.gauge_text import OwnGauge
from schematics.fitting.group import GroupFit
from schematics.fitting.group_yarn import counted_cell, group_yarn, yarn_json, yarn_sections
from schematics.fitting.report_json import gauge_json, head_and_cautions
from schematics.wearer.asking import ASKED_HEADING

SHOWN, MOST_SHOWN = 60, 5_000
"""Wearers listed one by one in a table: unless all are asked for, and even then."""

MOST_LEFT_OUT = 20
"""Those left out that are named."""

_CODES = ("stops", "minds", "not_sure", "not_checked")
"""The fields that are codes of findings."""

FIELDS = tuple(key.removesuffix("[]") for key in GROUP_WEARER)


def rows(group_fit: GroupFit) -> Iterator[dict[str, Any]]:
    """One wearer after the other, as in `FIELDS`; the size is None where none fits."""
    sizes = [size.name for size in group_fit.sizes]
    deciding, chances = group_fit.deciding or {}, group_fit.chances or {}

    @cache
    def codes(answers: bytes, wanted: Answer) -> list[str]:
        return [code for code, each in zip(group_fit.judged.codes, answers, strict=True) if each == wanted]

    @cache
    def others(could_be: bytes, best: int) -> list[str]:
        return [size for place, size in enumerate(sizes) if could_be[place] and place != best]

    @cache
    def unsure_codes(unsure: bytes) -> list[str]:
        return [code for code, each in zip(group_fit.judged.codes, unsure, strict=True) if each]

    for place, (name, line, best, fits, not_hers, answers, unsure, could_be) in enumerate(
        zip(
            group_fit.group.names,
            group_fit.group.lines.tolist(),
            group_fit.judged.best.tolist(),
            group_fit.fits.tolist(),
            group_fit.judged.not_hers_at_best().tolist(),
            map(bytes, np.ascontiguousarray(group_fit.judged.at_best().T)),
            map(bytes, np.ascontiguousarray(group_fit.judged.unsure_at_best().T)),
            map(bytes, np.ascontiguousarray(group_fit.could_be.T)),
            strict=True,
        )
    ):
        minds = codes(answers, Answer.MIND)
        yield {
            "line": line,
            "name": name,
            "size": sizes[best] if fits else None,
            "verdict": "stop" if not fits else "mind" if minds else "good",
            "nearest": None if fits else sizes[best],
            "not_hers": not_hers,
            "stops": codes(answers, Answer.STOP),
            "minds": minds,
            "not_sure": (not_sure := unsure_codes(unsure)),
            "not_sure_chances": [
                round(holds[code], 4) for code in not_sure if (holds := chances.get(place, {}))
            ],
            "not_checked": codes(answers, Answer.UNKNOWN),
            "could_also_be": others(could_be, best),
            "measure": decided.body.words if (decided := deciding.get(place)) else None,
            "measure_for": decided.settles.words if decided else None,
            "questions": list(group_fit.questions.get(line, ())),
        }


def _records(group_fit: GroupFit) -> Iterator[tuple[Value, ...]]:
    """One line for each wearer; findings are named in words, several in a cell parted by semicolons."""
    yield FIELDS
    for row in rows(group_fit):
        named = row | {field: check_names(row[field]) for field in _CODES}
        cells = (named[field] for field in FIELDS)
        yield tuple("; ".join(map(str, cell)) if isinstance(cell, list) else cell for cell in cells)


def group_json(design: Design, group_fit: GroupFit, gauge: OwnGauge | None) -> dict[str, Any]:
    """The group as plain JSON values, its wearers one after another."""
    counts = group_fit.counts(design)
    return {
        **head_and_cautions(design),
        "gauge": gauge_json(gauge),
        "counts": [
            {"size": each.name, "wearers": each.wearers, "uncertain": each.uncertain} for each in counts
        ],
        "no_size": int((~group_fit.fits).sum()),
        "yarn": yarn_json(design, counts, group_fit.could_take),
        "wearers": rows(group_fit),
        "problems": [
            {"line": each.line, "name": each.name, "sentence": each.sentence}
            for each in group_fit.group.problems
        ],
    }


def group_document(
    design: Design, group_fit: GroupFit, gauge: OwnGauge | None, *, show_all: bool
) -> Document:
    """How many of each size and the yarn for them, then the wearers one by one."""
    many = len(group_fit.group.names)
    return Document(
        title=design_title(design),
        sections=(
            *([gauge_section(design, gauge)] if gauge else []),
            *(_all_sections(design, group_fit, show_all) if many else []),
            *_first_sections(group_fit),
            *_questions_sections(group_fit),
        ),
        closing=(cautions_section(),),
        data=lambda: group_json(design, group_fit, gauge),
        records=lambda: _records(group_fit),
    )


def _all_sections(design: Design, group_fit: GroupFit, show_all: bool) -> tuple[Section, ...]:
    """How many of each size, their yarn, and the wearers one by one."""
    counts = group_fit.counts(design)
    yarn = yarn_sections(design, counts, group_fit.could_take)
    return (_counts_section(design, group_fit), *yarn, _wearers_section(group_fit, show_all))


def _counts_section(design: Design, group_fit: GroupFit) -> Section:
    counts, many, without = group_fit.counts(design), len(group_fit.group.names), int((~group_fit.fits).sum())
    table = Table(
        header=("size", "wearers", "uncertain"),
        rows=(
            *(
                (each.name, counted_cell(each.wearers), counted_cell(each.uncertain))
                for each in counts
                if each.wearers
            ),
            *([("none fits", counted_cell(without), "")] if without else []),
        ),
    )
    return Section(
        f"{many} wearer{'' if many == 1 else 's'}",
        (*_left_out(group_fit), table, _yarn_words(design, group_fit)),
    )


def _left_out(group_fit: GroupFit) -> Iterator[Block]:
    """Those whose lines cannot be used: they are in none of the numbers."""
    problems = group_fit.group.problems
    named = [f"{each.name} (line {each.line})" if each.name else f"Line {each.line}" for each in problems]
    sentences = [f"{who} is left out: {each.sentence}" for who, each in zip(named, problems, strict=True)]
    if sentences:
        more = len(sentences) - MOST_LEFT_OUT
        rest = [f"{more} more are left out."] if more > 0 else []
        yield Items((*sentences[:MOST_LEFT_OUT], *rest))


def _yarn_words(design: Design, group_fit: GroupFit) -> str:
    counts = group_fit.counts(design)
    if unweighed := dict.fromkeys(name for each in counts for name in each.need.unweighed):
        return f"Yarn: not known, the swatch of {', '.join(unweighed)} was not weighed."
    amounts = [
        f"{(each.buy_g or 0.0) / 1000:.2f} kg{' of ' + each.colour if each.colour else ''}"
        for each in group_yarn(design, counts, group_fit.could_take)
    ]
    spare = spare_words(design.yarn_use, (each.need for each in counts))
    return f"Yarn for all of them: {', '.join(amounts)}, with {spare} to spare."


def _wearers_section(group_fit: GroupFit, show_all: bool) -> Section:
    many = len(group_fit.group.names)
    if many > (MOST_SHOWN if show_all else SHOWN):
        options = "--csv" if many > MOST_SHOWN else "--all, --csv"
        return Section("", (f"One by one with {options} or --json.",))
    decided = group_fit.deciding is not None
    table = Table(
        header=("line", "name", "size", "verdict", "measure first"),
        rows=tuple(
            (
                str(row["line"]),
                row["name"],
                row["size"] or "none",
                _row_words(row),
                _first_words(row) if decided else "",
            )
            for row in rows(group_fit)
        ),
    )
    meant = [_NOT_SURE] if group_fit.judged.unsure_at_best().any() else []
    return Section("", (table, *meant, *([_NOT_DECIDED] if group_fit.deciding is None else [])))


_NOT_SURE = (
    "Not sure: good by what is known, but not for enough of all who are known by no more; in brackets of how "
    "many."
)
_SURE, _NONE_SETTLES = "sure", "nothing measured would settle it"
"""The words where none is to be measured first: nothing is in doubt by more than is accepted, or none of
the measurements that were not taken is likely to change what is advised by itself."""

_ASKED = "what is asked about below"
"""Who was measured as hardly anybody is may have been measured wrongly: that comes before all else."""

_NOT_DECIDED = f"What to measure first is worked out for groups of at most {MOST_DECIDED} wearers."


def _first_sections(group_fit: GroupFit) -> Iterator[Section]:
    """Whom to measure, the measurement that helps the most wearers first."""
    names, lines = group_fit.group.names, group_fit.group.lines.tolist()
    whose: dict[Decided, list[str]] = {}
    for place, decided in (group_fit.deciding or {}).items():
        whose.setdefault(decided, []).append(names[place] or f"line {lines[place]}")
    if whose and len(names) <= SHOWN:
        most = sorted(whose.items(), key=lambda each: -len(each[1]))
        yield Section(
            "What to measure first",
            (
                Items(
                    tuple(
                        f"The {decided.body.words} of {listed(some)}: it may change {decided.settles.words}."
                        for decided, some in most
                    )
                ),
            ),
        )


def _questions_sections(group_fit: GroupFit) -> Iterator[Section]:
    names = dict(zip(group_fit.group.lines.tolist(), group_fit.group.names, strict=True))
    asked = [
        f"Line {line}{', ' if names[line] else ''}{names[line]}: {sentence}"
        for line, sentences in group_fit.questions.items()
        for sentence in sentences
    ]
    more = [f"{len(asked) - SHOWN} more with --csv or --json."] if len(asked) > SHOWN else []
    if asked:
        yield Section(ASKED_HEADING, (Items(tuple(asked[:SHOWN])), *more))


def _first_words(row: dict[str, Any]) -> str:
    asked = [_ASKED] if row["questions"] else []
    if row["measure"]:
        return "; ".join([*asked, f"{row['measure']}, for {row['measure_for']}"])
    doubtful = row["not_sure"] or row["not_checked"] or row["could_also_be"]
    return asked[0] if asked else _NONE_SETTLES if doubtful else _SURE


def _unsure_names(row: dict[str, Any]) -> Iterator[str]:
    """What is not sure, with how often it holds where that is worked out."""
    chances = map(chance_words, row["not_sure_chances"])
    for code, holds in zip_longest(row["not_sure"], chances):
        yield f"{check_name(code)} ({holds})" if holds else check_name(code)


def _row_words(row: dict[str, Any]) -> str:
    names_by_words = {
        "stop": check_names(row["stops"]),
        "mind": check_names([code for code in row["minds"] if code not in row["not_sure"]]),
        "not sure": list(dict.fromkeys(_unsure_names(row))),
        "not checked": check_names(row["not_checked"]),
    }
    parts = [f"size {row['nearest']} comes nearest"] if row["nearest"] else []
    parts += [NOT_THIS_CHILDS] if row["not_hers"] else []
    parts += [f"{words}: {', '.join(names)}" for words, names in names_by_words.items() if names]
    if row["could_also_be"]:
        parts.append(f"could also be {', '.join(row['could_also_be'])}")
    return "; ".join(parts) or "good"
