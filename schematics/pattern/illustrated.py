"""The designer's own part of a pattern: photos in their places, the mark at the top, colour and fonts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from schematics.design.design import Design
from schematics.design.missing import marks, photo_key
from schematics.design.publication import PhotoPlace
from schematics.document.document import Block, Document
from schematics.document.house_style import HouseFont, HouseStyle, Photo
from schematics.errors import UsageError

_SECTIONS = {
    PhotoPlace.COVER: "about",
    PhotoPlace.BODY: "body",
    PhotoPlace.PANEL: "centre_panel",
    PhotoPlace.SEAMS: "seams",
    PhotoPlace.BANDS: "neck_band",
    PhotoPlace.FINISHING: "finishing",
}
"""The key of the part at whose end a photo is printed."""


def illustrated(document: Document, design: Design) -> Document:
    """The pattern with its photos, and a mark where the spec asks for one and has none.

    Raises:
        UsageError: a file is no longer as it was when the spec was read.
    """
    house = house_style(design)
    if house != HouseStyle():
        document = replace(document, house=house)
    if not design.publication.photos:
        return document
    sections = (
        replace(section, blocks=(*section.blocks, *_photos(design, section.key)))
        for section in document.sections
    )
    return replace(document, sections=tuple(sections))


def _photos(design: Design, key: str) -> Sequence[Block]:
    lacking = marks(design)
    return [
        _photo(design, photo.file, photo.shows, leading=photo.at is PhotoPlace.COVER)
        if photo.file
        else lacking[photo_key(number)]
        for number, photo in enumerate(design.publication.photos)
        if _SECTIONS[photo.at] == key
    ]


def house_style(design: Design) -> HouseStyle:
    """The look that the spec asks for.

    Raises:
        UsageError: a file is no longer as it was when the spec was read.
    """
    asked = design.publication.house
    return HouseStyle(
        accent=asked.accent,
        text=_font(design, asked.font),
        lettering=_font(design, asked.lettering),
        logo=_photo(design, asked.logo, design.publication.designer or design.title) if asked.logo else None,
    )


def _photo(design: Design, name: str, shows: str, *, leading: bool = False) -> Photo:
    from schematics.document.images import image_size

    content = _content(design, name)
    try:
        width, height = image_size(content, name)
    except ValueError as error:
        raise UsageError(f"{design.path}: {name}: {error}") from None
    return Photo(
        shows=shows,
        folder=design.path.parent,
        name=name,
        content=content,
        width=width,
        height=height,
        leading=leading,
    )


def _font(design: Design, name: str | None) -> HouseFont | None:
    from schematics.document.fonts import family_of, is_file

    if name is None or not is_file(name):
        return HouseFont(family=name) if name else None
    path = Path(design.path.parent, name)
    content, family = _content(design, name), family_of(path)
    if not family:
        raise UsageError(f"{design.path}: {name}: expected a font, got a file that is none")
    return HouseFont(family=family, file=path, content=content)


def _content(design: Design, name: str) -> bytes:
    try:
        return Path(design.path.parent, name).read_bytes()
    except OSError as error:
        raise UsageError(f"{design.path}: {name}: cannot be read: {error.strerror}") from None
