"""Reading one spec: load, validate, resolve; or say everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.grading.draft import Draft, DraftSize
from schematics.reading.loading import Fault, LoadedFile, content_of, file_error, parse
from schematics.reading.piece_bounds import garment_faults, size_faults
from schematics.reading.problems import Problem, SpecError, show_path
from schematics.reading.spec_model import MOST_SIZES, DesignBlock
from schematics.reading.spec_words import folder_fault, folder_key
from schematics.reading.to_draft import draft
from schematics.reading.values import Context
from schematics.units import Unit

_LONGEST_SLUG = 64


def read_design(path: Path) -> Design:
    """Read the spec at ``path``; counts it leaves out are found by grading.

    Raises:
        SpecError: the file cannot be used; the error holds every problem in it.
        SchematicsError: no counts can be found; the text begins with file and line.
    """
    draft = read_draft(path)
    if draft.wishes is None:
        return draft.design()
    from schematics.grading.grade import grade

    design = grade(draft).design
    build = CONSTRUCTIONS[design.construction].build
    garments = [build(size, design.parts) for size in design.sizes]
    _refuse(
        path,
        (
            (size, fault)
            for size, garment in zip(draft.sizes, garments, strict=True)
            for fault in garment_faults(garment, draft.counts)
        ),
    )
    return design


def read_draft(path: Path) -> Draft:
    """Read the spec at ``path`` as far as it gives the counts.

    Raises:
        SpecError: the file cannot be used; the error holds every problem in it.
    """
    refuse_name(path)
    return parse_draft(path, content_of(path))


def parse_draft(path: Path, content: bytes) -> Draft:
    """Read a spec that has, or is to have, that content; see `read_draft`.

    Raises:
        SpecError: the content or the file's name cannot be used; the error holds every problem.
    """
    refuse_name(path)
    document = parse(path, content)
    faults = list(document.faults)
    try:
        block = DesignBlock.model_validate(document.data, context=_context(document, path.parent))
    except ValidationError as error:
        faults += _faults(error, document)
    if faults:
        raise SpecError(_problems(path, faults))
    result = draft(block, document, path, content)
    _refuse(path, ((size, fault) for size in result.sizes for fault in size_faults(result, size)))
    return result


def _refuse(path: Path, faults: Iterable[tuple[DraftSize, tuple[str, str]]]) -> None:
    problems = [
        Problem(
            file=str(path),
            line=size.lines.get(place, size.line),
            path=show_path(("sizes", size.name, *filter(None, place.split(".")))),
            sentence=sentence,
        )
        for size, (place, sentence) in faults
    ]
    if problems:
        raise SpecError(problems)


def refuse_name(path: Path) -> None:
    """Raise `SpecError` where a spec cannot have the name of that file."""
    if fault := folder_fault(path.stem, _LONGEST_SLUG):
        raise file_error(path, None, f"the file's name becomes a folder's: {fault}")


def _context(document: LoadedFile, folder: Path) -> Context:
    data = document.data if isinstance(document.data, dict) else {}
    unit, word = data.get("unit"), data.get("construction")
    fabrics, sizes = _names(data, "fabrics"), _names(data, "sizes")
    first_by_folder: dict[str, str] = {}
    for name in sizes:
        first_by_folder.setdefault(folder_key(name), name)
    construction = CONSTRUCTIONS.get(word) if isinstance(word, str) else None
    return Context(
        unit=Unit(unit) if unit in list(Unit) else None,
        folder=folder,
        construction=construction,
        sizes=sizes,
        graded="grading" in data,
        fabrics=None if ("fabrics",) in document.incomplete or not fabrics else fabrics,
        colours=_colours(data),
        first_by_folder=first_by_folder,
        first_surplus_size=sizes[MOST_SIZES] if len(sizes) > MOST_SIZES else None,
    )


def _names(data: dict[str, Any], key: str) -> tuple[str, ...]:
    return tuple(_mapping(data, key))


def _mapping(data: dict[str, Any], *keys: str) -> dict[str, Any]:
    """What is there if it is a mapping; else an empty one."""
    for key in keys:
        block = data.get(key)
        data = block if isinstance(block, dict) else {}
    return data


def _colours(data: dict[str, Any]) -> tuple[str, ...]:
    """The names of colours: the yarn's, those of parts and those of charts."""
    fabrics = [each for each in _mapping(data, "fabrics").values() if isinstance(each, dict)]
    named = [
        _mapping(data, "yarn").get("colour"),
        *_mapping(data, "yarn_use", "colours").values(),
        *(colour for fabric in fabrics for colour in _mapping(fabric, "chart", "colours").values()),
    ]
    return tuple(dict.fromkeys(each for each in named if isinstance(each, str)))


def _faults(error: ValidationError, document: LoadedFile) -> Iterable[Fault]:
    """An unknown key is a fault of the mapping it is in, on its own line."""
    for detail in error.errors(include_url=False):
        path, unknown = document.existing_part(detail["loc"]), detail["ctx"].get("unknown", False)
        shown = path[:-1] if unknown else path
        unread = any(shown[: len(each)] == each for each in document.unread)
        if not unread and (unknown or shown not in document.incomplete):
            yield Fault(place=document.places[path], path=shown, sentence=detail["ctx"]["sentence"])


def _problems(path: Path, faults: Iterable[Fault]) -> Iterable[Problem]:
    """In line order; what an alias repeats is reported once."""
    unique: dict[tuple[int, str], Fault] = {}
    for fault in sorted(faults, key=lambda each: (each.place.line, each.place.offset)):
        unique.setdefault((fault.place.offset, fault.sentence), fault)
    for fault in unique.values():
        yield Problem(
            file=str(path), line=fault.place.line, path=show_path(fault.path), sentence=fault.sentence
        )
