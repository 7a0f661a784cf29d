"""Reading a text file that anyone may have written: bounded, a plain file, UTF-8 throughout."""

from __future__ import annotations

import re
from pathlib import Path

from schematics.errors import SchematicsError

_NO_TEXT = re.compile(r"[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What YAML 1.2.2 (section 5.1) does not count among printable characters; the rest is text."""


BYTE_ORDER_MARK = b"\xef\xbb\xbf"
LINE_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
"""What ends a line for PyYAML, which reads by YAML 1.1 (section 4.1.4)."""


class TextFileError(SchematicsError):
    """A file cannot be read as text; ``line`` counts from 1 and is None where it is the whole file."""

    def __init__(self, path: Path, line: int | None, sentence: str) -> None:
        self.path, self.line, self.sentence = path, line, sentence
        super().__init__(path, line, sentence)

    def __str__(self) -> str:
        where = f"{self.path}" if self.line is None else f"{self.path}:{self.line}"
        return f"{where}: {self.sentence}"

    @property
    def problems(self) -> tuple[str, ...]:
        """The text, which is of one thing."""
        return (str(self),)


def read_text(path: Path, most_bytes: int, usual: str) -> str:
    """The text of a file: `read_content` and `text_of` in one."""
    return text_of(path, read_content(path, most_bytes, usual))


def read_content(path: Path, most_bytes: int, usual: str) -> bytes:
    """The bytes of a file.

    Args:
        path: the file.
        most_bytes: the largest file that is read.
        usual: what such a file needs, as the sentence about a larger one ends: ``a spec needs little``.

    Raises:
        TextFileError: it is no plain file, cannot be read, or is larger.
    """
    try:
        if path.exists() and not path.is_file():
            raise TextFileError(path, None, "expected a file, got a folder or a device")
        with path.open("rb") as file:
            content = file.read(most_bytes + 1)
    except FileNotFoundError:
        raise TextFileError(path, None, "there is no such file") from None
    except (OSError, ValueError) as error:
        reason = file_for_folder(path) or getattr(error, "strerror", None) or str(error)
        raise TextFileError(path, None, f"the file cannot be read: {reason}") from None
    if len(content) > most_bytes:
        raise TextFileError(path, None, f"the file is over {most_bytes // 1_000_000} MB; {usual}")
    return content


def file_for_folder(path: Path) -> str | None:
    """``x.yaml is a file, not a folder`` where a folder of the path is none, though something is there."""
    files = (folder for folder in path.parents if folder.exists() and not folder.is_dir())
    return next((f"{folder} is a file, not a folder" for folder in files), None)


_NOT_UTF_8 = "the file is not UTF-8 text; save it as UTF-8"


def text_of(path: Path, content: bytes) -> str:
    """The text of a file with that content, without a byte order mark.

    Raises:
        TextFileError: it is not UTF-8 text.
    """
    if _two_bytes_a_letter(content):
        raise TextFileError(path, 1, _NOT_UTF_8)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The codec counts from behind a byte order mark.
        line = _line(error.object[: error.start].decode("utf-8"))
        raise TextFileError(path, line, _NOT_UTF_8) from None
    if odd := _NO_TEXT.search(text):
        line = _line(text[: odd.start()])
        raise TextFileError(path, line, f"the character U+{ord(odd.group()):04X} is not text; delete it")
    return text


def _line(before: str) -> int:
    """The line, counted from 1, on which the text after that begins."""
    return len(LINE_BREAK.findall(before)) + 1


def _two_bytes_a_letter(content: bytes) -> bool:
    """Whether the bytes look like UTF-16 or UTF-32, with a byte order mark or without."""
    return content.startswith((b"\xff\xfe", b"\xfe\xff")) or content.count(0, 0, 400) > len(content[:400]) / 3
