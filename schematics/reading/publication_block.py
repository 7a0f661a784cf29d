"""The block of a spec that says what the written pattern needs besides its figures."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import Field, model_validator

from schematics.design.publication import (
    DrawnFigures,
    DrawnStyle,
    DrawnUnits,
    House,
    Level,
    LineWeight,
    PhotoPlace,
    PhotoRoom,
    Publication,
    SeamSides,
    SeamStitch,
    SeamStyle,
)
from schematics.document.contrast import LEAST_CONTRAST, WHITE, contrast
from schematics.reading.problems import hint, show_value
from schematics.reading.spec_block import SpecBlock
from schematics.reading.values import ColourValue, Context, TextValue, ValueInContext, ValueKind, refuse
from schematics.units import Unit

_LONGEST_LINE = 400
_MOST_LINES = 20
_NAMES_A_FILE = re.compile(r"[/\\:]|\.\w+$")

_Line = Annotated[str, TextValue(_LONGEST_LINE)]
_Lines = Annotated[list[_Line], Field(max_length=_MOST_LINES)]


@dataclass(frozen=True, slots=True)
class WordOf(ValueKind):
    """A word of a list."""

    words: type[StrEnum]

    def read(self, value: Any) -> StrEnum:
        """The member of ``words``.

        Raises:
            PydanticCustomError: it is none of them.
        """
        allowed = [each.value for each in self.words]
        if value not in allowed:
            cure = hint(value, allowed) if isinstance(value, str) else f"expected one of {', '.join(allowed)}"
            raise refuse(f"{show_value(value)} is not known here; {cure}")
        return self.words(value)

    def schema(self) -> dict[str, Any]:
        """One of them."""
        return {"enum": [each.value for each in self.words]}


@dataclass(frozen=True, slots=True)
class FileBeside(ValueInContext):
    """The name of a file in the spec's folder or below it."""

    endings: tuple[str, ...]

    def read(self, value: Any, context: Context) -> str:
        """The name, with strokes between folders; there is such a file.

        Raises:
            PydanticCustomError: it lies outside the folder, has another ending, or is not there.
        """
        name = TextValue(200).read(value)
        if "\\" in name or ":" in name or name.startswith("/") or ".." in name.split("/"):
            raise refuse(
                f"expected a file in the spec's folder or below it, such as photos/{self._example}, "
                f"got {show_value(name)}"
            )
        if not name.casefold().endswith(self.endings):
            raise refuse(f"expected a file such as {self._example}, got {show_value(name)}")
        if context.folder:
            self._look(context.folder, name)
        return name

    def _look(self, folder: Path, name: str) -> None:
        """Refuse a file that is not there, or that lies elsewhere by a link."""
        if not (folder / name).is_file():
            raise refuse(f"there is no file {show_value(name)} in the spec's folder")
        if not (folder / name).resolve().is_relative_to(folder.resolve()):
            raise refuse(
                f"expected a file in the spec's folder or below it, got a link to another: {show_value(name)}"
            )

    @property
    def _example(self) -> str:
        return f"front{self.endings[0]}"

    def schema(self) -> dict[str, Any]:
        """Text."""
        return TextValue(200).schema()


@dataclass(frozen=True, slots=True)
class ImageBeside(FileBeside):
    """The name of an image that can be printed, in the spec's folder or below it."""

    def _look(self, folder: Path, name: str) -> None:
        from schematics.document.images import image_fault

        FileBeside._look(self, folder, name)
        if fault := image_fault(folder / name):
            raise refuse(f"{fault}: {show_value(name)}")


@dataclass(frozen=True, slots=True)
class FontValue(FileBeside):
    """The name of a font's file, or that of a family of fonts on this computer."""

    def read(self, value: Any, context: Context) -> str:
        """The file's name as it stands, or the family as its fonts spell it.

        Raises:
            PydanticCustomError: there is no such file or family, or it lacks Latin letters.
        """
        if not isinstance(value, str) or _NAMES_A_FILE.search(value):
            return FileBeside.read(self, value, context)
        from schematics.document.fonts import installed_family

        if family := installed_family(TextValue(200).read(value)):
            self._look_at_letters(Path(), family)
            return family
        raise refuse(
            f"no font family {show_value(value)} is found on this computer; name one that is, or a file such "
            f"as {self._example} beside the spec"
        )

    def _look(self, folder: Path, name: str) -> None:
        from schematics.document.fonts import family_of

        FileBeside._look(self, folder, name)
        if not family_of(folder / name):
            raise refuse(f"expected a font of 4 MB at most, got a file that is none: {show_value(name)}")
        self._look_at_letters(folder, name)

    def _look_at_letters(self, folder: Path, name: str) -> None:
        from schematics.document.fonts import font_of

        try:
            font_of(name, folder)
        except ValueError as error:
            raise refuse(f"{error}; name one with Latin letters") from None


class AccentColour(ColourValue):
    """A colour in which headings can be read on white."""

    def read(self, value: Any) -> str:
        """The colour as ``#rrggbb``, in small letters.

        Raises:
            PydanticCustomError: it is no colour, or too light to be read on white.
        """
        colour = super().read(value)
        if (read := contrast(colour, WHITE)) < LEAST_CONTRAST:
            raise refuse(
                f"expected a colour dark enough to read on white (contrast {LEAST_CONTRAST:g} or more), "
                f"got {show_value(value)} with {read:.1f}"
            )
        return colour


class SeamBlock(SpecBlock):
    """How the panel is joined to the body."""

    stitch: Annotated[SeamStitch, WordOf(SeamStitch)] = Field(
        description="the stitch of the seam, in US terms"
    )
    sides: Annotated[SeamSides, WordOf(SeamSides)] | None = Field(
        default=None, description="how the two pieces lie; mattress stitch has one way only"
    )

    @model_validator(mode="after")
    def _can_be_worked(self) -> Self:
        if self.stitch is SeamStitch.MATTRESS and self.sides not in (None, SeamSides.EDGES):
            raise refuse(
                f"mattress stitch is worked {SeamSides.EDGES.value}; leave out 'sides', or take another "
                "stitch"
            )
        return self

    def seam(self) -> SeamStyle:
        """The seam the program uses."""
        only = SeamSides.EDGES if self.stitch is SeamStitch.MATTRESS else None
        return SeamStyle(stitch=self.stitch, sides=self.sides or only)


class PhotoBlock(SpecBlock):
    """Room for a photo."""

    at: Annotated[PhotoPlace, WordOf(PhotoPlace)] = Field(description="the part of the pattern it stands in")
    shows: _Line = Field(description="what it shows, for those who cannot see it")
    file: Annotated[str, ImageBeside((".jpg", ".jpeg", ".png", ".svg"))] | None = Field(
        default=None, description="its file beside the spec; room is left for it where there is none"
    )


_Font = Annotated[str, FontValue((".ttf", ".otf"))]


class DrawingsBlock(SpecBlock):
    """How the drawings look that are placed into pages of the designer's own."""

    units: Annotated[DrawnUnits, WordOf(DrawnUnits)] = Field(
        default=DrawnUnits.BOTH, description="both, the first one as 'units_first' says, or cm or in alone"
    )
    counts: bool = Field(default=True, description="whether stitches and rows stand beside the lengths")
    measured_by: Annotated[DrawnFigures, WordOf(DrawnFigures)] = Field(
        default=DrawnFigures.FIGURES,
        description="figures at each measurement, or letters and a table under the drawing",
    )
    lines: Annotated[LineWeight, WordOf(LineWeight)] = Field(
        default=LineWeight.MEDIUM, description="how wide lines are: fine, medium or bold"
    )


class HouseBlock(SpecBlock):
    """How the pattern looks."""

    accent: Annotated[str, AccentColour()] = Field(
        default="", description="colour of headings, as '#1f5f6b', dark enough to read on white"
    )
    font: _Font | None = Field(
        default=None, description="the text's font: its file beside the spec, or a family on this computer"
    )
    lettering: _Font | None = Field(default=None, description="the font of title and headings, likewise")
    logo: Annotated[str, ImageBeside((".svg", ".png"))] | None = Field(
        default=None, description="file of the designer's mark, beside the spec"
    )
    units_first: Annotated[Unit, WordOf(Unit)] | None = Field(
        default=None, description="the unit printed first, cm or in; that of the spec if left out"
    )
    drawings: DrawingsBlock | None = Field(
        default=None, description="how the drawings look that are placed into pages of the designer's own"
    )

    def house(self) -> House:
        """The house style the program uses."""
        return House(
            accent=self.accent or None,
            font=self.font,
            lettering=self.lettering,
            logo=self.logo,
            units_first=self.units_first,
            drawings=DrawnStyle(**dict(self.drawings)) if self.drawings else DrawnStyle(),
        )


class PublicationBlock(SpecBlock):
    """What the written pattern says besides its figures."""

    designer: Annotated[str, TextValue()] | None = Field(
        default=None, description="the designer's name as printed"
    )
    copyright: Annotated[str, TextValue(200)] | None = Field(
        default=None, description="the copyright line, whole, as it is to be printed"
    )
    level: Annotated[Level, WordOf(Level)] | None = Field(
        default=None, description="how hard it is to make: basic, easy, intermediate or complex"
    )
    seam: SeamBlock | None = Field(default=None, description="how the panel is joined to the body")
    notions: _Lines = Field(default=[], description="what is needed besides yarn and hook, a line each")
    care: _Lines = Field(default=[], description="how the finished piece is washed and dried, a line each")
    notes: _Lines = Field(default=[], description="what the designer adds to the notes, a line each")
    photos: Annotated[list[PhotoBlock], Field(max_length=_MOST_LINES)] = Field(
        default=[], description="room for photos: where, what they show, and their files"
    )
    house: HouseBlock | None = Field(default=None, description="how the pattern looks")

    def publication(self) -> Publication:
        """The publication the program uses."""
        return Publication(
            designer=self.designer,
            copyright=self.copyright,
            level=self.level,
            seam=self.seam.seam() if self.seam else None,
            notions=tuple(self.notions),
            care=tuple(self.care),
            notes=tuple(self.notes),
            photos=tuple(PhotoRoom(at=each.at, shows=each.shows, file=each.file) for each in self.photos),
            house=self.house.house() if self.house else House(),
        )
