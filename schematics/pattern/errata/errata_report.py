"""The errata between two versions of a pattern as a document that can be published as it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from schematics.analysis.json_keys import ERRATUM
from schematics.checks.wording import listed, sentence_case
from schematics.design.design import Design
from schematics.document.document import PROGRAM, Document, Items, Section
from schematics.document.json_text import picked
from schematics.pattern.errata.errata import Erratum, Mend
from schematics.pattern.errata.places import quoted
from schematics.pattern.errata.versions import Errata

_FIRST = "Below the title"
"""What is called so has no heading in the pattern."""


def errata_document(old: Design, new: Design, errata: Errata) -> Document:
    """What is to be corrected, by the headings of the pattern."""
    parts = groupby(errata.corrections, key=lambda erratum: (erratum.part, erratum.whole))
    return Document(
        title=f"{new.title}: errata",
        lead=tuple(_lead(old, new, errata)),
        sections=tuple(
            _section(errata, part or _FIRST, whole, list(group)) for (part, whole), group in parts
        ),
        data=lambda: _json(old, new, errata),
        records=lambda: (
            tuple(key.removesuffix("[]") for key in ERRATUM),
            *(tuple(_row(errata, each)) for each in errata.corrections),
        ),
        sold=True,
    )


def _lead(old: Design, new: Design, errata: Errata) -> Iterator[str]:
    if errata.same:
        yield "Nothing that is printed in the pattern has changed."
        return
    if old.date and new.date and old.date != new.date:
        yield (
            f"Corrections to the pattern of {old.date.isoformat()}; they are made in that of "
            f"{new.date.isoformat()}."
        )
    if errata.construction:
        yield "No row is as it was: the pattern is to be read anew as a whole."
    if errata.pages:
        yield "Pages are those of the A4 edition."
    for names, words in ((errata.added, "added to"), (errata.removed, "left out of")):
        if names:
            verb = "is" if len(names) == 1 else "are"
            yield f"{sentence_case(_for(names).removeprefix(', '))} {verb} {words} the new version."


def _section(errata: Errata, part: str, whole: bool, corrections: Sequence[Erratum]) -> Section:
    if whole and corrections[0].kind is Mend.DELETE:
        return Section(part, (_begun(errata, corrections[0], "delete this part."),))
    items: list[str] = []
    for (kind, _), group in groupby(corrections, key=lambda each: (each.kind, each.line)):
        several = list(group)
        items += _added(errata, several) if kind is Mend.ADD else (_one(errata, each) for each in several)
    return Section(part, ("This part is new.", Items(tuple(items))) if whole else (Items(tuple(items)),))


def _one(errata: Errata, erratum: Erratum) -> str:
    """Such as ``Page 3, Row 12 (WS), size 6: read “…”, not “…”``."""
    place = f"{erratum.place}{_for(erratum.sizes)}"
    match erratum.kind:
        case Mend.RENUMBER:
            verb = "are" if erratum.place.partition(" ")[0].endswith("s") else "is"
            words = f"{place}{',' if erratum.sizes else ''} {verb} now {erratum.new}."
        case Mend.DELETE:
            words = f"{place}: delete this line."
        case _:
            words = f"{place}: read {quoted(erratum.new)}, not {quoted(erratum.old)}."
    return _begun(errata, erratum, words)


def _added(errata: Errata, group: Sequence[Erratum]) -> Iterator[str]:
    """Where lines are to be added, then each of them; for whom is written once if it is the same for all."""
    first = group[0]
    alike = len({each.sizes for each in group}) == 1 and not first.whole
    if not first.whole:
        where = f"after {first.place}" if first.place else "before the first line"
        yield _begun(errata, first, f"{where}{_for(first.sizes) if alike else ''}, add:")
    for each in group:
        yield quoted(each.new if alike else _only(each))


def _only(erratum: Erratum) -> str:
    """The line, and for whom it is, as the pattern says so."""
    if not erratum.sizes:
        return erratum.new
    sizes = sentence_case(_for(erratum.sizes).removeprefix(", "))
    return f"{sizes} only, {erratum.new}"


def _begun(errata: Errata, erratum: Erratum, words: str) -> str:
    """The words with the page before them where it is known; a label is left as it is printed."""
    if page := errata.page(erratum):
        return f"Page {page}, {words}"
    return sentence_case(words) if erratum.kind is Mend.ADD or erratum.whole else words


def _for(sizes: Sequence[str]) -> str:
    return f", size{'' if len(sizes) == 1 else 's'} {listed(sizes)}" if sizes else ""


def _values(errata: Errata, erratum: Erratum) -> dict[str, Any]:
    return picked(
        erratum,
        ERRATUM,
        page=errata.page(erratum),
        section=erratum.part,
        place=erratum.place or None,
        sizes=list(erratum.sizes),
        what=erratum.kind.value,
        old=erratum.old or None,
        new=erratum.new or None,
    )


def _row(errata: Errata, erratum: Erratum) -> Iterator[str | int | None]:
    values = _values(errata, erratum)
    values["sizes"] = ", ".join(erratum.sizes) or None
    yield from values.values()


def _json(old: Design, new: Design, errata: Errata) -> dict[str, Any]:
    return {
        "format": 2,
        "program": PROGRAM,
        "old": old.path.name,
        "new": new.path.name,
        "terms": new.terms.value,
        "errata": [_values(errata, each) for each in errata.corrections],
        "added": list(errata.added),
        "removed": list(errata.removed),
    }
