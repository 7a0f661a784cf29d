"""What the codes of findings, the limits and the keys of the JSON mean, as documents."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from schematics.analysis.json_keys import Keys
from schematics.checks import EXPLAINED
from schematics.checks.finding import Explanation, Topic
from schematics.design.limits import LIMIT_FIELDS, Limits
from schematics.document.document import Cell, Document, Quantity, Section, Table


def codes_document(topics: Iterable[Topic]) -> Document:
    """Every code a finding may have, by what it is about."""
    return Document(
        title="The codes of findings",
        sections=tuple(
            _words_section(each.name, "code", ((item.code, item.title) for item in each.explanations))
            for each in topics
        ),
    )


def explanation_document(explanation: Explanation) -> Document:
    """What a code means, at length, with the default limits it is held against."""
    rows = [
        ("means", explanation.meaning),
        ("cure", explanation.cure),
        ("origin", explanation.origin),
    ]
    for name in explanation.limits:
        about = LIMIT_FIELDS[name].metadata
        rows.append(("limit", f"{name} {getattr(Limits(), name):g}: {about['words']} ({about['source']})"))
    title = f"{explanation.code}: {explanation.title}"
    return Document(title=title, sections=(_words_section("", "about", rows),))


def limits_document() -> Document:
    """Every limit a spec may change, with its default, what it may be, and its source."""
    table = Table(
        header=("limit", "default", "may be", "means", "findings", "source"),
        rows=tuple(map(_limit_row, LIMIT_FIELDS)),
        stacked=True,
    )
    return Document(
        title="The limits the checks hold a size against",
        lead=(
            "A spec may change them under limits:. A fraction is a part of one, 0.03 or 3 %; "
            "a length without a unit is in cm.",
        ),
        sections=(Section("", (table,)),),
    )


def _limit_row(name: str) -> tuple[Cell, ...]:
    about, default = LIMIT_FIELDS[name].metadata, getattr(Limits(), name)
    unit = " cm" if about["length"] else ""
    low, high = about["between"]
    codes = ", ".join(each.code for each in EXPLAINED.values() if name in each.limits)
    return (
        name, Quantity(default, f"{default:g}{unit}"), f"from {low:g} to {high:g}{unit}", about["words"],
        f"of {codes}", about["source"],
    )  # fmt: skip


def keys_document(commands: Mapping[str, Keys]) -> Document:
    """Every key of the JSON of each command."""
    return Document(
        title="The keys of the JSON",
        lead=(
            "[] stands for each element of a list, * for any name. A list may be empty; what holds other "
            "keys is null where it is not known or does not apply. The end of a name is its unit: _cm, _g.",
            "Commands that take any number of specs (check, figures, workings, sensitivity, yarn and hang) "
            "print one such object a design in the list designs[], be it of one; the others print it by "
            "itself. measurements.json is that of check, figures.json that of figures.",
        ),
        sections=tuple(
            _words_section(f"schematics {command} --format json", "key", keys.items())
            for command, keys in commands.items()
        ),
    )


def _words_section(heading: str, about: str, rows: Iterable[tuple[str, str]]) -> Section:
    table = Table(header=(about, "what it means"), rows=tuple(rows), headed=False)
    return Section(heading, (table,))
