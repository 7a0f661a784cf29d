"""What a written pattern needs that the spec does not say; nothing is made up in its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import plain_stitch
from schematics.design.design import NOT_CHOSEN, Design
from schematics.design.publication import PhotoPlace


class Where(StrEnum):
    """The part of the pattern that lacks it; the value is its heading there, in small letters."""

    TITLE = "title"
    MATERIALS = "materials"
    PANEL = "centre panel"
    BODY = "body"
    BANDS = "bands"
    SEAMS = "seams"
    FINISHING = "finishing"
    CARE = "care"


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """One thing missing: ``what`` it is, its place in the pattern, and the ``key`` of the spec to write."""

    key: str
    what: str
    place: Where

    @property
    def mark(self) -> str:
        """What is printed in its place: ``[to be added: level]``."""
        return f"[to be added: {self.what}]"


def missing(design: Design) -> tuple[Missing, ...]:
    """Everything that is missing, in the order of the pattern; empty for a spec that says it all."""
    wanted = (*_head(design), *_fabrics(design), *_ending(design), *_photos(design))
    return tuple(Missing(key=key, what=what, place=place) for key, what, place, absent in wanted if absent)


def marks(design: Design) -> Mapping[str, str]:
    """What is printed in the place of each thing that is missing, by its key in the spec."""
    return {each.key: each.mark for each in missing(design)}


_PLACES = {"body": Where.BODY, "centre panel": Where.PANEL}
_Wanted = tuple[str, str, Where, bool]
"""A key of the spec, what it says, its place in the pattern, and whether it is absent."""


def _head(design: Design) -> Iterator[_Wanted]:
    publication, yarn = design.publication, design.yarn
    yield "pattern.designer", "designer", Where.TITLE, publication.designer is None
    yield "pattern.copyright", "copyright line", Where.TITLE, publication.copyright is None
    yield "pattern.level", "level", Where.TITLE, publication.level is None
    yield "yarn.name", "yarn", Where.MATERIALS, yarn.name == NOT_CHOSEN
    yield "yarn.weight", "weight of the yarn", Where.MATERIALS, yarn.weight is None
    yield "yarn.fibre", "fibre of the yarn", Where.MATERIALS, yarn.fibre is None
    yield "yarn.ball_mass", "grams in a ball", Where.MATERIALS, yarn.ball_mass_g is None
    yield "yarn.ball_length", "metres in a ball", Where.MATERIALS, yarn.ball_length_m is None


def _fabrics(design: Design) -> Iterator[_Wanted]:
    parts = design.parts
    for name, fabric in parts.fabrics.items():
        used = parts.named_for(fabric)
        yield f"fabrics.{name}.hook", f"hook for the {used}", Where.MATERIALS, fabric.hook_mm is None
        amount = f"amount of yarn for the {used}"
        yield f"fabrics.{name}.swatch.mass", amount, Where.MATERIALS, fabric.weighed.mass_g is None
    yield "pattern.notions", "notions", Where.MATERIALS, not design.publication.notions
    for name, fabric in parts.fabrics.items():
        first = parts.used_for(fabric).partition(", ")[0]
        what = f"rows of the {parts.named_for(fabric)}"
        yield f"fabrics.{name}.chart", what, _PLACES.get(first, Where.BANDS), _rows_unknown(fabric)
    for border in parts.borders:
        fabric = border.fabric(parts.body)
        yield f"borders.{border.name}.chart", f"rows of the {border.name}", Where.BODY, _rows_unknown(fabric)


def _ending(design: Design) -> Iterator[_Wanted]:
    seam = design.publication.seam
    yield "pattern.seam", "stitch of the seams", Where.SEAMS, seam is None
    lie = "how the pieces lie for the seams"
    yield "pattern.seam.sides", lie, Where.SEAMS, seam is not None and seam.sides is None
    yield "pattern.care", "washing and care", Where.CARE, not design.publication.care


_PHOTO_PLACES = {
    PhotoPlace.COVER: Where.TITLE,
    PhotoPlace.BODY: Where.BODY,
    PhotoPlace.PANEL: Where.PANEL,
    PhotoPlace.SEAMS: Where.SEAMS,
    PhotoPlace.BANDS: Where.BANDS,
    PhotoPlace.FINISHING: Where.FINISHING,
}


def photo_key(number: int) -> str:
    """The key of the spec for the file of the photo of that number, from nought."""
    return f"pattern.photos[{number}].file"


def _photos(design: Design) -> Iterator[_Wanted]:
    """Room that the spec asks for and has no photo for."""
    for number, photo in enumerate(design.publication.photos):
        shows = photo.shows.rstrip(".")
        yield photo_key(number), f"photo: {shows}", _PHOTO_PLACES[photo.at], photo.file is None


def _rows_unknown(fabric: Fabric) -> bool:
    """Whether a maker can work the rows neither by a chart nor by the name of the stitch."""
    return fabric.chart is None and plain_stitch(fabric.stitch) is None
