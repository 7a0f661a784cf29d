"""Names that mean harm, and specs that bear them at every place a spec has for a name.

A name may stand as text (the title, the yarn, a stitch, a colour, a fabric) and as the name of a size,
which is a folder's too. What is not drawn as it stands is refused in the sentence beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import yaml

from schematics.reading.problems import show_value

FOLDER = "a size's name becomes a folder's: "
NO_SIZE = f"{FOLDER}expected 1 to 24 printable characters"
EDGE = f"{FOLDER}it cannot begin or end with a space or a full stop"
DEVICE = f"{FOLDER}that name is reserved on some systems"
FILE = f"{FOLDER}it ends like the name of a file"


def no_line(name: str, longest: int) -> str:
    return f"expected one line of 1 to {longest} printable characters, got {show_value(name)}"


def holds(sign: str) -> str:
    return f"{FOLDER}it cannot hold {sign!r}; use letters, digits and hyphens"


def lacks(sign: str) -> str:
    return (
        f"the lettering of the sheets has no {sign!r} (U+{ord(sign):04X}); "
        "use Latin, Greek, Cyrillic, Armenian or Georgian letters"
    )


DRAWN = (
    "{{7-7}}", "{% raw %}", "${hacked=1}", "#{7-7}", "%s%n%x", "{0}{title}", "%(title)s",
    "&lt;b&gt;hacked=1", "&#60;u&#62;", "&bogus;&", "[bold red]x", "__x__ ~y~", "[x](y)", "![x](y)",
    "# heading", "'", "''", "O'Brien", "' onfocus='hacked=1' x='"[:24], "`hacked=1`", "=1+1", "+1", "-1+1",
    "@SUM(A1)", ";=1+1", "$(touch hacked)", "; touch hacked", "&& touch hacked", "-rf", "--out=x", "~",
    "$HOME", "%TEMP%", "!x", "-", "sizes", "pieces", "cover", "1e400", "nan", "0x10", "yes", "null", "NO",
    "12 30", "2026-09-14", "&a", "!!str x", "% x", "- a", "a" * 24, "W" * 24, "Größe Ж Ω ẞ", "e\u0301",
    "½ №1 ♥ ★", "javascript;hacked=1", "(((((((((((((((", "]]]]", "--", "\u00a1\u00bf", "constructor",
    "__proto__", "toString",
)  # fmt: skip
"""Drawn as they stand, wherever they stand."""

TEXT_ONLY = (
    ("<script>hacked=1</script>", NO_SIZE),
    ("</title><script>hacked=1</script>", NO_SIZE),
    ("</script><script>hacked=1//", NO_SIZE),
    ("--><script>hacked=1</script>", NO_SIZE),
    ("]]><script>hacked=1</script>", NO_SIZE),
    ("<img src=x onerror=hacked=1>", NO_SIZE),
    ("<svg/onload=hacked=1>", holds("<")),
    ("<details open ontoggle=hacked=1>", NO_SIZE),
    ("<iframe srcdoc='<script>top.hacked=1</script>'>", NO_SIZE),
    ("<a href=javascript:hacked=1 autofocus>x", NO_SIZE),
    ("<base href=//example.org>", NO_SIZE),
    ("<meta http-equiv=refresh content=0>", NO_SIZE),
    ("<style>*{display:none}", holds("<")),
    ("<!-- ", holds("<")),
    ("<![CDATA[<b>]]>", holds("<")),
    ("<?xml version='1.0'?>", holds("<")),
    ("<!DOCTYPE html>", holds("<")),
    ('" onmouseover="hacked=1', holds('"')),
    ('"', holds('"')),
    ("\\", holds("\\")),
    ("\\u003cb\\u003e", holds("\\")),
    ("javascript:hacked=1", holds(":")),
    ("| a | b |", holds("|")),
    ("**x** _y_ `z`", holds("*")),
    ("*", holds("*")),
    ("?", holds("?")),
    ("2,4", holds(",")),
    ("=cmd|' /C calc'!A0", holds("|")),
    ('=HYPERLINK("http://example.org")', NO_SIZE),
    ("../up", holds("/")),
    ("..\\up", holds("\\")),
    ("/etc/passwd", holds("/")),
    ("C:", holds(":")),
    ("\\\\server\\share", holds("\\")),
    ("a/../../b", holds("/")),
    ("x:stream", holds(":")),
    (".", EDGE),
    ("..", EDGE),
    ("...", EDGE),
    (".hidden", EDGE),
    ("6 ", EDGE),
    (" 6", EDGE),
    ("6.", EDGE),
    ("CON", DEVICE),
    ("nul", DEVICE),
    ("aux.txt", DEVICE),
    ("Com1", DEVICE),
    ("LPT9.svg", DEVICE),
    ("COM¹", DEVICE),
    ("workbook.pdf", FILE),
    ("FIGURES.CSV", FILE),
    ("manifest.json", FILE),
    ("fit.html", FILE),
    ("6.tmp", FILE),
    ("a" * 80, NO_SIZE),
    ("W" * 80, NO_SIZE),
)
"""Drawn as text, and refused as a size's name, with the sentence."""

REFUSED = (
    "", "   ", "a" * 10_000, "a " * 5_000, "\0", "a\nb", "a\r\nb", "a\tb", "\x1b[2Jx", "\x07", "\x7f",
    "\x9b31m", "a\x85b", "a\u2028b", "a\u2029b", "a\u00a0b", "\u202ecod.exe", "\u2066x\u2069", "\u200fx",
    "\u061cx", "a\u200bb", "a\u200db", "a\u2060b", "a\ufeffb", "a\u00adb", "\uffff", "\ue000", "\u0378",
)  # fmt: skip
"""Refused wherever they stand: nothing that shows, or more than one line of it."""

UNLETTERED = (
    "\u05d0\u05d1", "\u0645\u0642", "\u6f22\u5b57", "\U0001f9f6", "\U0001f1eb\U0001f1f7", "x\u0302",
    "Z\u0351\u036b", "\U0001d54f", "\ufb01", "\uff1d1+1", "\u0e01",
)  # fmt: skip
"""Refused wherever they stand, for the letter the sheets do not have."""

NO_CHARACTERS = ("\ud800", "a\udfff", "\ud83e\uddf6")
"""Escapes for which the whole file is refused."""

COUNT = len(NO_CHARACTERS) + len(DRAWN) + len(TEXT_ONLY) + len(REFUSED) + len(UNLETTERED)

TEXTS = (*DRAWN, *(name for name, _ in TEXT_ONLY))


@dataclass(frozen=True, slots=True)
class Hostile:
    """A name, and the sentences that refuse it as text and as a size; empty where it is drawn."""

    name: str
    as_text: str
    as_size: str


def every_name() -> Iterator[Hostile]:
    """All names with what is said of them."""
    for name in DRAWN:
        yield Hostile(name, "", "")
    for name, sentence in TEXT_ONLY:
        yield Hostile(name, "", sentence)
    for name in REFUSED:
        yield Hostile(name, no_line(name, 80), EDGE if name == "   " else NO_SIZE)
    for name in UNLETTERED:
        sign = next(sign for sign in name if not sign.isascii())
        if name.startswith(("x", "Z")):
            sign = name[1]
        yield Hostile(name, lacks(sign), lacks(sign))


def quoted(name: str) -> str:
    """The name in the double quotes of YAML, all but ASCII escaped."""
    text: str = yaml.dump(name, default_style='"', allow_unicode=False, width=10**6)
    return text.rstrip("\n")


def spec_of(texts: Sequence[str], sizes: Sequence[str]) -> str:
    """A spec that bears 14 texts, each at a place of its own, and sizes of those names.

    The title stands on line 1, the yarn's name on line 2, the colours on line 3, the first fabric on line 7
    and its stitch on line 8; the first size stands on the line after ``sizes:``.
    """
    title, yarn, *rest = map(quoted, texts)
    colours, fabrics, stitches = rest[:4], rest[4:8], rest[8:12]
    parts = ("body", "centre_panel", "neck_band", "arm_bands")
    lines = [
        f"title: {title}",
        f"yarn: {{ball_mass: 50, ball_length: 100, name: {yarn}}}",
        f"yarn_use: {{colours: {{{', '.join(map('{}: {}'.format, parts, colours))}}}}}",
        "unit: cm",
        "construction: flared",
        "fabrics:",
    ]
    for fabric, stitch in zip(fabrics, stitches, strict=True):
        lines += [
            f"  ? {fabric}",
            f"  : {{stitch: {stitch}, turning_chains: 2, "
            "swatch: {stitches: 14, rows: 10, width: 10, height: 10, mass: 6}}",
        ]
    lines.append(f"parts: {{{', '.join(map('{}: {}'.format, parts, fabrics))}}}")
    lines.append("sizes:")
    for size in sizes:
        lines += [
            f"  ? {quoted(size)}",
            "  : {wearer: child/4, body: {neck: 60, hem: 176, rows: 30},",
            "     arms: {from_front: 40, stitches: 20}, panel: {stitches: 16, rows: 30},",
            "     neck_band: {stitches: 6}, arm_bands: {stitches: 8}}",
        ]
    return "\n".join(lines) + "\n"


def plain(count: int) -> list[str]:
    """So many names that mean no harm."""
    return [f"plain {number}" for number in range(count)]
