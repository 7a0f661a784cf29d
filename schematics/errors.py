"""The program's own exceptions; every one a user can meet is a `SchematicsError`."""

from collections.abc import Iterator
from contextlib import contextmanager

_LONGEST_QUOTE = 40


def shortened(text: str) -> str:
    """What was typed, as it is quoted in a message."""
    return text if len(text) <= _LONGEST_QUOTE else f"{text[: _LONGEST_QUOTE - 3]}..."


class SchematicsError(Exception):
    """Root of all errors the program raises on purpose; its text is meant for the user.

    Args:
        args: what is wrong, a text for each thing; where a file is to be mended it begins with the file's
            name and the line.
    """

    def __str__(self) -> str:
        return "\n".join(map(str, self.args))

    @property
    def problems(self) -> tuple[str, ...]:
        """Each thing that is wrong, as a text of its own; together they are the text of the error."""
        return tuple(map(str, self.args))


class UsageError(SchematicsError):
    """The call itself is wrong: an unknown size, a missing file, an option out of range."""


class MissingLibraryError(SchematicsError):
    """A library the machine must provide is absent, or of no use; the text says what to do about it."""


class Problems(list[str]):
    """What is wrong with a call, collected so that all of it is reported at once."""

    @contextmanager
    def noted(self) -> Iterator[None]:
        """Go on after what cannot be used, and keep it."""
        try:
            yield
        except SchematicsError as error:
            self.extend(error.problems)

    def refuse(self) -> None:
        """Raise `UsageError` with all of it, a line for each; nothing where nothing is wrong."""
        if self:
            raise UsageError(*self)
