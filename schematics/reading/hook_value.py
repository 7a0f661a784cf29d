"""A hook as it may be written in a spec: in millimetres, or by its United States letter and number."""

from __future__ import annotations

from typing import Any

from schematics.crochet.hooks_and_yarn import hook_words, hooks, hooks_called
from schematics.reading.problems import listed, show_value
from schematics.reading.values import Amount, ValueKind, refuse

_MM = Amount("mm", 1, 40)


class HookValue(ValueKind):
    """A hook, such as ``8``, ``8 mm``, ``US L/11`` or ``L``."""

    def read(self, value: Any) -> float:
        """The hook's size in mm.

        Raises:
            PydanticCustomError: there is no such hook, or it may be one of several.
        """
        matching = hooks_called(value) if isinstance(value, str) else None
        if matching is None:
            return _MM.read(value)
        if not matching:
            raise refuse(
                f"there is no United States hook {show_value(value)}; write it in mm, such as '8 mm', or as "
                "'US L/11'"
            )
        if len(matching) > 1:
            several = listed([hook_words(hook.mm) for hook in matching])
            raise refuse(f"{show_value(value)} may be {several}; write which, in mm")
        return matching[0].mm

    def schema(self) -> dict[str, Any]:
        """A number, or text with its unit or a letter."""
        number, text = _MM.schema()["anyOf"]
        signs = sorted({sign for hook in hooks() for sign in hook.us_name or "" if sign.isalpha()})
        letter = f"[{''.join(signs)}{''.join(signs).lower()}]"
        letters = rf"^\s*([Uu][Ss]\s*)?{letter}(\s*/\s*{letter})*([\s/-]*[0-9]+( 1/2|\.5)?)?\s*$"
        numbered = r"^\s*[Uu][Ss]\s*[0-9]+( 1/2|\.5)?\s*$"
        return {
            "anyOf": [
                number,
                text,
                {"type": "string", "pattern": letters},
                {"type": "string", "pattern": numbered},
            ],
            "examples": ["8 mm", "US L/11"],
        }
