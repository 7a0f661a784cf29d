"""Going through a row's text from left to right."""

from __future__ import annotations

import re

_SPACE = re.compile(r"\s*")


class RowTextError(ValueError):
    """The text is no row; ``column`` counts its characters from 1."""

    def __init__(self, column: int, sentence: str) -> None:
        self.column = column
        super().__init__(f"column {column} of the row: {sentence}")


class TextCursor:
    """A place in a text; between two steps it is at the end or at something other than a space."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self._skip_space()

    @property
    def at_end(self) -> bool:
        """Whether all is read."""
        return self.at == len(self.text)

    def sees(self, sign: str) -> bool:
        """Whether ``sign`` comes next."""
        return self.text.startswith(sign, self.at)

    def take(self, sign: str) -> bool:
        """Go past ``sign``, if it comes next."""
        taken = self.sees(sign)
        self.go_to(self.at + len(sign) * taken)
        return taken

    def match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Go past what the pattern matches here, if it does."""
        match = pattern.match(self.text, self.at)
        if match:
            self.go_to(match.end())
        return match

    def go_to(self, at: int) -> None:
        """Go on from there, past spaces."""
        self.at = at
        self._skip_space()

    def text_from(self, start: int, end: int) -> str:
        """The text between two places, without spaces at its ends."""
        return self.text[start:end].strip()

    def error(self, sentence: str, at: int | None = None) -> RowTextError:
        """What is wrong here, or at a place counted from 0."""
        return RowTextError((self.at if at is None else at) + 1, sentence)

    def _skip_space(self) -> None:
        match = _SPACE.match(self.text, self.at)
        self.at = match.end() if match else self.at
