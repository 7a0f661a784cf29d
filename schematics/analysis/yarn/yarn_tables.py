"""The yarn of each size as tables for the terminal, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from rich.console import RenderableType
from rich.text import Text

import schematics
from schematics.analysis.yarn.need import ColourYarn, PartYarn
from schematics.analysis.yarn.shorten import Shortened
from schematics.analysis.yarn.stash import ColourVerdict, Verdict
from schematics.analysis.yarn.yarn_report import SizeYarn, largest_enough, yarn_notes
from schematics.checks.wording import listed
from schematics.design.cautions import CAUTIONS
from schematics.design.design import Design
from schematics.document.json_text import number
from schematics.document.table import cautions_parts, columns, heading
from schematics.units import METRES_PER_YARD, format_inches

FORMAT = 1
"""Goes up by one when a key of the JSON is renamed, removed or changes its meaning."""

UNKNOWN = "not known"


def grams(mass_g: float | None) -> str:
    """A mass as printed, in whole grams; what is not known is said."""
    return UNKNOWN if mass_g is None else f"{mass_g:.0f} g"


def yarn_parts(
    design: Design, sizes: Sequence[SizeYarn], stash: Mapping[str, float]
) -> Iterator[RenderableType]:
    """Every size's yarn, by part and by colour, then what the stash is good for, notes and cautions."""
    yield heading(f"{design.title}: yarn, {design.yarn.name} ({design.path})")
    yield Text()
    yield columns(_part_rows(sizes), right=range(1, 20))
    yield Text()
    yield columns(_colour_rows(design, sizes), right=range(2, 20))
    if stash:
        yield Text()
        yield from _stash_parts(sizes, stash)
    yield Text()
    yield heading("How it is counted")
    yield columns([["-", note] for note in yarn_notes(design)])
    yield Text()
    yield from cautions_parts()


def _part_rows(sizes: Sequence[SizeYarn]) -> list[list[str]]:
    first = sizes[0].need
    names = [f"{part.part} ×{part.quantity}" if part.quantity > 1 else part.part for part in first.parts]
    rows = [["size", *names, "joins and tails"]]
    for size in sizes:
        thread = sum(colour.thread_m for colour in size.need.colours)
        rows.append(
            [size.result.size.name, *(grams(part.mass_g) for part in size.need.parts), f"{thread:.1f} m"]
        )
    return rows


def _colour_rows(design: Design, sizes: Sequence[SizeYarn]) -> list[list[str]]:
    several = bool(design.yarn_use.colours)
    margin = f"with {design.yarn_use.margin_words}"
    rows = [
        ["size", "colour" if several else "", "in all", "give or take", margin, "metres", "yards", "balls"]
    ]
    for size in sizes:
        for at, colour in enumerate(size.need.colours):
            rows.append([
                "" if at else size.result.size.name,
                colour.colour,
                grams(colour.net_g),
                grams(colour.error_g),
                grams(colour.buy_g),
                UNKNOWN if colour.length_m is None else f"{colour.length_m:.0f} m",
                UNKNOWN if colour.length_m is None else f"{colour.length_m / METRES_PER_YARD:.0f} yd",
                UNKNOWN if colour.balls is None else str(colour.balls),
            ])  # fmt: skip
    return rows


def _stash_parts(sizes: Sequence[SizeYarn], stash: Mapping[str, float]) -> Iterator[RenderableType]:
    have = ", ".join(f"{colour} {mass:.0f} g".strip() for colour, mass in stash.items())
    yield heading(f"With {have} at hand")
    yield columns([
        [size.result.size.name, size.verdict.value, ", ".join(map(left_words, size.verdicts))]
        for size in sizes
    ])  # fmt: skip
    yield Text()
    yield columns([[sentence] for sentence in stash_sentences(sizes)])


def left_words(each: ColourVerdict) -> str:
    """What is over or short, such as ``sand 24 g over``; the colour where the design names one."""
    left = f"{each.left_g:.0f} g over" if each.left_g >= 0 else f"{-each.left_g:.0f} g short"
    return f"{each.colour} {left}".strip()


def stash_sentences(sizes: Sequence[SizeYarn]) -> Iterator[str]:
    """The largest size the stash does for, and what to shorten in the others."""
    largest = largest_enough(sizes)
    if largest is None:
        yield "No size can be made from it as designed."
    else:
        yield f"The largest size it does for is {largest.result.size.name}."
    for size in sizes:
        if size.result.verdict == "stop":
            yield f"Size {size.result.size.name} cannot be made as it stands: see schematics check."
        elif size.verdict is not Verdict.ENOUGH:
            yield f"Size {size.result.size.name}: {shorter_words(size.shorter)}"


def shorter_words(shorter: Shortened | None) -> str:
    """What to shorten and what comes of it, as a sentence."""
    if shorter is None:
        return "shortening the body by up to a third does not help, or breaks a check."
    takes = [f"{grams(each.buy_g)} {each.colour}".strip() for each in shorter.need.colours]
    changes = ", ".join(f"{name} to {after} (from {before})" for name, before, after in shorter.changes)
    return (
        f"change {changes}. It comes out {shorter.shorter_cm:.1f} cm ({format_inches(shorter.shorter_cm)}) "
        f"shorter and then takes {listed(takes)} with the margin."
    )


def yarn_json(design: Design, sizes: Sequence[SizeYarn], stash: Mapping[str, float]) -> dict[str, Any]:
    """The same as plain JSON values: grams, metres and square centimetres to 0.001."""
    largest = largest_enough(sizes) if stash else None
    return {
        "format": FORMAT,
        "program": f"schematics {schematics.__version__}",
        "spec": design.path.name,
        "title": design.title,
        "yarn": design.yarn.name,
        "margin": number(design.yarn_use.margin),
        "stash_g": {colour: number(mass) for colour, mass in stash.items()} or None,
        "largest_size": largest.result.size.name if largest else None,
        "notes": list(yarn_notes(design)),
        "cautions": [{"sentence": each.sentence, "source": each.source} for each in CAUTIONS],
        "sizes": [_size_json(size) for size in sizes],
    }


def _size_json(size: SizeYarn) -> dict[str, Any]:
    need = size.need
    return {
        "name": size.result.size.name,
        "net_g": number(need.net_g),
        "error_g": number(need.error_g),
        "buy_g": number(need.buy_g),
        "unweighed": list(need.unweighed),
        "colours": [_colour_json(colour) for colour in need.colours],
        "stash": [_verdict_json(each) for each in size.verdicts],
        "shorter": _shorter_json(size.shorter),
    }


def _colour_json(colour: ColourYarn) -> dict[str, Any]:
    return {
        "colour": colour.colour or None,
        "net_g": number(colour.net_g),
        "error_g": number(colour.error_g),
        "buy_g": number(colour.buy_g),
        "buy_m": number(colour.length_m),
        "balls": colour.balls,
        "without_joins_and_tails": colour.without_thread,
        "parts": [_part_json(part) for part in colour.parts],
        "threads": [{"name": each.name, "m": number(each.length_cm / 100)} for each in colour.threads],
    }


def _part_json(part: PartYarn) -> dict[str, Any]:
    return {
        "part": part.part,
        "quantity": part.quantity,
        "fabric": part.fabric.name,
        "area_cm2": number(part.area_cm2),
        "g": number(part.mass_g),
    }


def _verdict_json(each: ColourVerdict) -> dict[str, Any]:
    return {
        "colour": each.colour or None,
        "verdict": each.verdict.value,
        "have_g": number(each.have_g),
        "left_g": number(each.left_g),
    }


def _shorter_json(shorter: Shortened | None) -> dict[str, Any] | None:
    if shorter is None:
        return None
    return {
        "changes": [
            {"count": name, "before": before, "after": after} for name, before, after in shorter.changes
        ],
        "shorter_cm": number(shorter.shorter_cm),
        "buy_g": number(shorter.need.buy_g),
    }
