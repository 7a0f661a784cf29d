"""The words of a spec that must be on a list or fit to name something: sizes, fabrics, charts, days."""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.problems import hint, show_value
from schematics.reading.values import Context, TextValue, ValueInContext, ValueKind, letter_fault, refuse
from schematics.units import Unit
from schematics.wearer.rows import WearerError, find_row, references

_LONGEST_SIZE_NAME = 24
_FORBIDDEN_IN_NAMES = '/\\:*?"<>|,'
SIZE_NAME_PATTERN = r'^[^./\\:*?"<>|, ]([^/\\:*?"<>|,]*[^./\\:*?"<>|, ])?$'
"""What a schema can say of the names `folder_fault` allows."""
_PORTS = {f"{port}{number}" for port in ("com", "lpt") for number in "123456789¹²³"}
_DEVICES = {"con", "conin$", "conout$", "prn", "aux", "nul"} | _PORTS
_FILE_ENDINGS = (".csv", ".html", ".json", ".md", ".pdf", ".png", ".svg", ".tmp")
"""Of the files that are written beside a folder of such a name."""


@dataclass(frozen=True, slots=True)
class NameInFile(ValueInContext):
    """The name of one of the file's fabrics, sizes or colours, which ``what`` says."""

    what: Literal["fabric", "size", "colour"]

    def read(self, value: Any, context: Context) -> str:
        """The name as it stands.

        Raises:
            PydanticCustomError: nothing in the file has it.
        """
        name = TextValue().read(value)
        names = {"fabric": context.fabrics, "size": context.sizes, "colour": context.colours}[self.what]
        if names and name not in names:
            raise refuse(f"there is no {self.what} {show_value(name)}; {hint(name, names)}")
        return name

    def schema(self) -> dict[str, Any]:
        """Text; which names there are depends on the file."""
        return TextValue().schema()


def folder_fault(name: str, longest: int) -> str:
    """Why no folder may have this name on every common system; empty if one may."""
    if not 1 <= len(name) <= longest or not name.isprintable():
        return f"expected 1 to {longest} printable characters"
    if bad := next((sign for sign in name if sign in _FORBIDDEN_IN_NAMES), ""):
        return f"it cannot hold {bad!r}; use letters, digits and hyphens"
    if name.strip(" .") != name:
        return "it cannot begin or end with a space or a full stop"
    if name.split(".")[0].rstrip().casefold() in _DEVICES:
        return "that name is reserved on some systems"
    if name.casefold().endswith(_FILE_ENDINGS):
        return "it ends like the name of a file"
    return ""


def folder_key(name: str) -> str:
    """Equal for two names that give one folder where letter case makes no difference."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


@dataclass(frozen=True, slots=True)
class SizeName(ValueInContext):
    """The name of a size, which becomes a folder's name."""

    most: int

    def read(self, value: Any, context: Context) -> str:
        """The name as it stands.

        Raises:
            PydanticCustomError: no folder can have it, no sheet has its letters, or it is one too many.
        """
        if fault := folder_fault(value, _LONGEST_SIZE_NAME):
            raise refuse(f"a size's name becomes a folder's: {fault}")
        if fault := letter_fault(value):
            raise refuse(fault)
        first = context.first_by_folder[folder_key(value)]
        if first != value:
            raise refuse(f"a size's name becomes a folder's, and {first!r} gives the same one; rename one")
        if value == context.first_surplus_size:
            raise refuse(f"a design holds at most {self.most} sizes; delete this one and those after it")
        return str(value)

    def schema(self) -> dict[str, Any]:
        """Text of that length; `SIZE_NAME_PATTERN` has the rest."""
        return {"type": "string", "minLength": 1, "maxLength": _LONGEST_SIZE_NAME}


class Date(ValueKind):
    """A day, such as 2026-09-14."""

    def read(self, value: Any) -> datetime.date:
        """The day of the calendar.

        Raises:
            PydanticCustomError: it is none, or not written as 2026-09-14.
        """
        try:
            if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                return datetime.date.fromisoformat(value)
        except (TypeError, ValueError):
            pass
        raise refuse(f"expected a day of the calendar such as 2026-09-14, got {show_value(value)}")

    def schema(self) -> dict[str, Any]:
        """A date after ISO 8601."""
        return {"type": "string", "format": "date"}


class UnitWord(ValueInContext):
    """The unit of bare numbers."""

    def read(self, value: Any, context: Context) -> Unit:
        """The unit, which the whole file is read with.

        Raises:
            PydanticCustomError: it is neither cm nor in.
        """
        if context.unit is None:
            raise refuse(f"expected cm or in, got {show_value(value)}")
        return context.unit

    def schema(self) -> dict[str, Any]:
        """One of the two."""
        return {"enum": [unit.value for unit in Unit]}


def no_construction(word: str, offered: Iterable[str]) -> str:
    """The message where a word is none of the constructions ``offered``."""
    return f"there is no construction {show_value(word)}; {hint(word.strip().casefold(), list(offered))}"


class ConstructionWord(ValueInContext):
    """The word that picks a construction."""

    def read(self, value: Any, context: Context) -> str:
        """The word of a construction.

        Raises:
            PydanticCustomError: there is no such construction.
        """
        if context.construction:
            return context.construction.word
        if not isinstance(value, str):
            raise refuse(f"expected one of {', '.join(CONSTRUCTIONS)}, got {show_value(value)}")
        raise refuse(no_construction(value, CONSTRUCTIONS))

    def schema(self) -> dict[str, Any]:
        """One of the constructions."""
        return {
            "oneOf": [{"const": each.word, "description": each.summary} for each in CONSTRUCTIONS.values()]
        }


class WearerReference(ValueKind):
    """A row of a shipped size chart, or of the table by age."""

    def read(self, value: Any) -> str:
        """The row's reference, such as ``child/6``.

        Raises:
            PydanticCustomError: there is no such row.
        """
        rows = references()
        if not isinstance(value, str):
            raise refuse(f"expected a chart row such as {rows[0]!r}, got {show_value(value)}")
        try:
            return find_row(value, "").reference
        except WearerError:
            raise refuse(
                f"there is no chart row {show_value(value)} ('schematics wearers' lists them); "
                f"{hint(value, rows)}"
            ) from None

    def schema(self) -> dict[str, Any]:
        """One of the rows, or any other age in years."""
        return {"anyOf": [{"enum": list(references())}, {"type": "string", "pattern": "^age/[0-9.]+$"}]}
