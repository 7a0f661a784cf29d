"""The yarn of each size as a document."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from shlex import quote
from typing import Any

from schematics.analysis.json_keys import EFFECT, SEVERITY_CHANGE, YARN_COLOUR, YARN_PART, YARN_STASH
from schematics.analysis.side_effects import changed_checks
from schematics.analysis.yarn.need import ColourYarn, YarnNeed, spare_words
from schematics.analysis.yarn.shorten import NOT_SHORTER, SHORTEN, Shortened
from schematics.analysis.yarn.stash import ColourVerdict, StashVerdict, read_stash
from schematics.analysis.yarn.yarn_report import SizeYarn, largest_enough, size_yarns, yarn_notes
from schematics.checks.evaluation import Result
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.common import cautions_json, cautions_section, head_json
from schematics.document.document import Cell, Document, Items, Quantity, Section, Table
from schematics.document.json_text import number, picked
from schematics.units import METRES_PER_YARD, Grain, Unit, format_both, printed_mass

UNKNOWN = "not known"


def mass_words(mass_g: float | None, unit: Unit) -> str:
    """A mass as printed to whoever measures in a unit; ``not known`` where there is none."""
    return UNKNOWN if mass_g is None else printed_mass(mass_g, unit)


def yarn_document(design: Design, results: Sequence[Result], have: Sequence[str]) -> Document:
    """The yarn of the results by part and by colour, and what a stash is good for.

    Args:
        design: the design.
        results: its sizes.
        have: amounts of yarn at hand, such as ``450 g``, as they were given; there may be none.

    Raises:
        UsageError: an amount is none, or a swatch was not weighed and there is a stash.
    """
    stash = read_stash(have, design)
    sizes = size_yarns(design, results, stash)
    return Document(
        title=f"{design.title}: yarn, {design.yarn.name} ({design.path})",
        sections=(
            Section("", (_part_table(sizes),)),
            Section("", (_colour_table(design, sizes),)),
            *([_stash_section(design, sizes, stash, have)] if stash else []),
            Section("How it is counted", (Items(yarn_notes(design, [size.need for size in sizes])),)),
        ),
        closing=(cautions_section(),),
        data=lambda: yarn_json(design, sizes, stash),
    )


def _amount(value: float | None, unit: str, digits: int = 0) -> Quantity:
    words = UNKNOWN if value is None else f"{value:.{digits}f} {unit}".rstrip()
    return Quantity(value, words, unit)


def _part_table(sizes: Sequence[SizeYarn]) -> Table:
    parts = sizes[0].need.parts
    names = (f"{part.part} ×{part.quantity}" if part.quantity > 1 else part.part for part in parts)
    return Table(
        header=("size", *names, "joins and tails"),
        rows=tuple(
            (
                size.result.size.name,
                *(_amount(part.mass_g, "g") for part in size.need.parts),
                _amount(sum(colour.thread_m for colour in size.need.colours), "m", 1),
            )
            for size in sizes
        ),
    )


def _colour_table(design: Design, sizes: Sequence[SizeYarn]) -> Table:
    several = bool(design.yarn_use.colours)
    margin = f"with {spare_words(design.yarn_use, (size.need for size in sizes))}"
    colour_column = ("colour",) if several else ()
    return Table(
        header=("size", *colour_column, "in all", "give or take", margin, "metres", "yards", "balls"),
        rows=tuple(
            (
                "" if at else size.result.size.name,
                *((colour.colour,) if several else ()),
                *_colour_cells(colour),
            )
            for size in sizes
            for at, colour in enumerate(size.need.colours)
        ),
    )


def _colour_cells(colour: ColourYarn) -> tuple[Cell, ...]:
    yards = None if colour.length_m is None else colour.length_m / METRES_PER_YARD
    return (
        *(_amount(mass_g, "g") for mass_g in (colour.net_g, colour.error_g, colour.buy_g)),
        _amount(colour.length_m, "m"),
        _amount(yards, "yd"),
        _amount(colour.balls, ""),
    )


def _stash_section(
    design: Design, sizes: Sequence[SizeYarn], stash: Mapping[str, float], given: Sequence[str]
) -> Section:
    have = ", ".join(f"{colour} {mass:.0f} g".strip() for colour, mass in stash.items())
    table = Table(
        header=("size", "verdict", "what is over or short"),
        rows=tuple(
            (size.result.size.name, size.verdict.value, ", ".join(map(left_words, size.verdicts)))
            for size in sizes
        ),
        headed=False,
    )
    return Section(f"With {have} at hand", (table, *stash_sentences(design, sizes, given)))


def left_words(each: ColourVerdict, unit: Unit = Unit.CM) -> str:
    """What is over or short, such as ``sand 24 g over``; the colour where the design names one."""
    left = f"{printed_mass(abs(each.left_g), unit)} {'over' if each.left_g >= 0 else 'short'}"
    return f"{each.colour} {left}".strip()


def stash_sentences(design: Design, sizes: Sequence[SizeYarn], have: Sequence[str]) -> Iterator[str]:
    """The largest size the stash does for, what to shorten in the others, and how to come by a pattern."""
    largest = largest_enough(sizes)
    if largest is None:
        yield "No size can be made from it as designed."
    else:
        yield f"The largest size it does for is {largest.result.size.name}."
    for size in sizes:
        if size.result.verdict == "stop":
            yield f"Size {size.result.size.name} cannot be made as it stands: see schematics check."
        elif size.verdict is not StashVerdict.ENOUGH:
            number = "" if size.shorter is None else f", suggestion {SHORTEN}"
            words = shorter_words(size.shorter, Tape(design.unit))
            yield f"Size {size.result.size.name}{number}: {words}"
    shorter = [each.result.size.name for each in sizes if each.shorter is not None]
    if shorter:
        one = len(shorter) == 1
        amounts = " ".join(f"--have {quote(each)}" for each in have)
        yield (
            f"For {'its pattern' if one else 'a pattern'}: schematics make {quote(str(design.path))} "
            f"--size {quote(shorter[0])} --change {SHORTEN} {amounts} --age 6, with the wearer's own age or "
            f"measurements{'' if one else ' and the size you want'}."
        )


def shorter_words(shorter: Shortened | None, tape: Tape, masses: Unit = Unit.CM) -> str:
    """What to shorten and all that comes of it, as sentences; masses as to whoever measures in that unit."""
    if shorter is None:
        return NOT_SHORTER
    takes = [f"{mass_words(each.buy_g, masses)} {each.colour}".strip() for each in shorter.need.colours]
    changes = listed(each.words for each in shorter.changes)
    effects = ", ".join(each.words(tape) for each in shorter.effects)
    moved = changed_checks(shorter.checks) or "No more is to be minded than before."
    return (
        f"work {changes}. It comes out {format_both(shorter.shorter_cm, Grain.USUAL)} "
        f"shorter and then takes {listed(takes)} with the margin. Together: {effects}. {moved}"
    )


def yarn_json(design: Design, sizes: Sequence[SizeYarn], stash: Mapping[str, float]) -> dict[str, Any]:
    """The same as plain JSON values: grams, metres and square centimetres to 0.001."""
    largest = largest_enough(sizes) if stash else None
    return {
        **head_json(design),
        "yarn": design.yarn.name,
        "margin": number(design.yarn_use.margin),
        "stash_g": {colour: number(mass) for colour, mass in stash.items()} or None,
        "largest_size": largest.result.size.name if largest else None,
        "notes": list(yarn_notes(design, [size.need for size in sizes])),
        "cautions": cautions_json(),
        "sizes": [_size_json(size) for size in sizes],
    }


def _size_json(size: SizeYarn) -> dict[str, Any]:
    return {
        "name": size.result.size.name,
        **need_json(size.need),
        **stash_json(size.verdicts, size.shorter),
    }


def need_json(need: YarnNeed) -> dict[str, Any]:
    """How much yarn one garment takes, by colour."""
    return {
        **picked(need, ("net_g", "error_g", "buy_g", "unweighed")),
        "colours": [_colour_json(colour) for colour in need.colours],
    }


def stash_json(verdicts: Sequence[ColourVerdict], shorter: Shortened | None) -> dict[str, Any]:
    """Whether the yarn at hand does, by colour, and what would make it."""
    return {
        "stash": [picked(each, YARN_STASH, colour=each.colour or None) for each in verdicts],
        "shorter": _shorter_json(shorter),
    }


def _colour_json(colour: ColourYarn) -> dict[str, Any]:
    return {
        **picked(
            colour,
            YARN_COLOUR,
            colour=colour.colour or None,
            buy_m=colour.length_m,
            without_joins_and_tails=colour.without_thread,
        ),
        "parts": [picked(part, YARN_PART, fabric=part.fabric.name, g=part.mass_g) for part in colour.parts],
        "threads": [{"name": each.name, "m": number(each.length_cm / 100)} for each in colour.threads],
    }


def _shorter_json(shorter: Shortened | None) -> dict[str, Any] | None:
    if shorter is None:
        return None
    return {
        "changes": [
            {"count": re.sub(r"[._]", " ", each.key), "before": each.before, "after": each.after}
            for each in shorter.changes
        ],
        "number": SHORTEN,
        "effects": [picked(each, EFFECT) for each in shorter.effects],
        "checks": [picked(each, SEVERITY_CHANGE) for each in shorter.checks],
        "shorter_cm": number(shorter.shorter_cm),
        "buy_g": number(shorter.need.buy_g),
    }
