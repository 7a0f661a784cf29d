"""Accidents that befall a spec: in its text, as an editor makes them, and in its bytes, as a disk does."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Sequence

KEY = re.compile(r"(?<=[{ ,])[a-z_0-9\"]+(?=:)|^[a-z_]+(?=:)", re.MULTILINE)
SCALAR = re.compile(r"(?<=: )[^{}\[\],:\n&*]+")
ODD_VALUES = (
    "", "null", "true", "0", "-1", "3.5", ".nan", "-.inf", "1e400", "9" * 5000, "''", "'text'", "12,5",
    "[1, [2]]", "{a: {b: 1}}", "!!set {a}", "&x 1", "*x", "2026-09-14", "1:30", "|\n  block", "\u202e", "# x",
    "- a", "? b", "{", "]", "'", '"\\', "%", "@", "\t", "{<<: 1}", "? {a: 1}", "'\\u0000'", "0x10", "0o17",
    "1_000", "yes", "no", "1e-400", "-0.0", '"\\uD800"', '"\\UFFFFFFFF"', "!!python/object:os.system {}",
    "!<tag:yaml.org,2002:str> 3", "\u00e9", "e\u0301", "\U0001f9f6", "=1+1", "<i9>&amp;", "a" * 10_000,
)  # fmt: skip
ODD_KEYS = ("hemm", "4", "yes", "''", "<<", "[a]", "{}", "a b", "../up", "con", "\u05d0", "a" * 2_000)


def mutated(text: str, dice: random.Random) -> str:
    """The text after one small accident."""
    lines = text.split("\n")
    at = dice.randrange(len(lines))
    kind = dice.randrange(8)
    if kind == 0:
        del lines[at]
    elif kind == 1:
        lines.insert(at, lines[dice.randrange(len(lines))])
    elif kind == 2:
        lines[at] = " " * dice.randrange(5) + lines[at]
    elif kind == 3:
        lines[at] = lines[at][dice.randrange(4) :]
    elif kind == 4:
        return swapped(text, KEY, dice)
    elif kind == 5:
        place = dice.randrange(len(text) + 1)
        return text[:place] + dice.choice(ODD_VALUES) + text[place:]
    elif kind == 6:
        return replaced(text, KEY, dice, dice.choice(ODD_KEYS))
    else:
        return replaced(text, SCALAR, dice, dice.choice(ODD_VALUES))
    return "\n".join(lines)


def replaced(text: str, pattern: re.Pattern[str], dice: random.Random, new: str) -> str:
    """The text with one of the pattern's matches replaced."""
    found = list(pattern.finditer(text))
    if not found:
        return text
    match = dice.choice(found)
    return text[: match.start()] + new + text[match.end() :]


def swapped(text: str, pattern: re.Pattern[str], dice: random.Random) -> str:
    """The text with two of the pattern's matches swapped."""
    found = list(pattern.finditer(text))
    if len(found) < 2:
        return text
    first, second = sorted(dice.sample(found, 2), key=lambda match: match.start())
    between = text[first.end() : second.start()]
    return text[: first.start()] + second.group() + between + first.group() + text[second.end() :]


def spliced(text: str, other: str, dice: random.Random) -> str:
    """The head of one text and the tail of another, cut at lines."""
    head, tail = text.split("\n"), other.split("\n")
    return "\n".join(head[: dice.randrange(len(head) + 1)] + tail[dice.randrange(len(tail) + 1) :])


def _flipped(content: bytes, dice: random.Random) -> bytes:
    flipped = bytearray(content)
    for _ in range(dice.choice((1, 1, 2, 8))):
        flipped[dice.randrange(len(flipped))] ^= 1 << dice.randrange(8)
    return bytes(flipped)


def _noisy(content: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    return content[:at] + dice.randbytes(dice.choice((1, 2, 16))) + content[at:]


def _gap(content: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(content))
    return content[:at] + content[at + dice.choice((1, 3, 50, 500)) :]


def _cut(content: bytes, dice: random.Random) -> bytes:
    return content[: dice.randrange(len(content))]


def _zeroed(content: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(content))
    return content[:at] + bytes(min(64, len(content) - at)) + content[at + 64 :]


def _recoded(content: bytes, dice: random.Random) -> bytes:
    codec = dice.choice(("utf-16", "utf-16-le", "utf-32", "utf-8-sig", "cp1252", "cp500"))
    return content.decode(errors="replace").encode(codec, errors="replace")


BYTES: Sequence[Callable[[bytes, random.Random], bytes]] = (
    _flipped,
    _flipped,
    _noisy,
    _gap,
    _cut,
    _zeroed,
    _recoded,
)


def damaged(content: bytes, dice: random.Random) -> bytes:
    """The bytes after one accident on their way to the disk."""
    return dice.choice(BYTES)(content, dice) if content else content
