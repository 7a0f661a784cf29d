"""Will my stash do: what each size asks of the yarn at hand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from schematics.analysis.yarn.need import YarnNeed, metres_per_gram
from schematics.design.design import PARTS, Design, Yarn
from schematics.errors import Problems, UsageError
from schematics.reading.problems import show_value
from schematics.reading.spellings import GRAMS_PER, METRES_PER
from schematics.units import HAIR

_AMOUNT = re.compile(
    r"\s*(?:(?P<colour>[^:]*?)\s*:)?\s*(?P<number>[0-9]{1,7}(?:\.[0-9]{1,6})?)\s*(?P<unit>[a-z]+)\s*",
    re.ASCII | re.IGNORECASE,
)
_LONGEST_AMOUNT = 80
"""Characters of an amount; a colour's name may have forty."""
_BALLS = ("ball", "balls", "skein", "skeins")


class StashVerdict(StrEnum):
    """Whether a stash does for a size."""

    ENOUGH = "enough"
    TIGHT = "only without the margin"
    SHORT = "not enough"


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourVerdict:
    """One colour of a size against the stash, in grams; ``left_g`` is negative where it is short."""

    colour: str
    have_g: float
    net_g: float
    buy_g: float

    @property
    def left_g(self) -> float:
        """What is over after the margin."""
        return self.have_g - self.buy_g

    @property
    def verdict(self) -> StashVerdict:
        """Whether this colour lasts (a hair of float error is forgiven)."""
        if self.have_g >= self.buy_g - HAIR:
            return StashVerdict.ENOUGH
        return StashVerdict.TIGHT if self.have_g >= self.net_g - HAIR else StashVerdict.SHORT


def read_stash(texts: Sequence[str], design: Design) -> dict[str, float]:
    """Grams at hand by colour, from texts such as ``450 g``, ``5 balls`` or ``sand: 450 g``.

    A colour that is not named may be bought as needed.

    Raises:
        UsageError: a text is no amount, names no colour of the design or leaves it open which is meant,
            or what it takes to turn the amount into grams is not in the spec; a line for each.
    """
    colours = list(dict.fromkeys(design.yarn_use.colour(part) for part in PARTS))
    stash: dict[str, float] = {}
    problems = Problems()
    for text in texts:
        with problems.noted():
            colour, mass_g = _amount(text, colours, design)
            if colour in stash:
                raise UsageError(
                    f"--have: {text!r} gives {colour or 'the yarn'} a second time; add the amounts up"
                )
            stash[colour] = mass_g
    problems.refuse()
    return stash


def _amount(text: str, colours: Sequence[str], design: Design) -> tuple[str, float]:
    """The colour of one of the texts, and its grams."""
    match = _AMOUNT.fullmatch(text) if len(text) <= _LONGEST_AMOUNT else None
    unit = "" if match is None else match["unit"].lower()
    if match is None or unit not in {*GRAMS_PER, *METRES_PER, *_BALLS}:
        raise UsageError(
            f"--have: expected an amount such as '450 g', '16 oz', '5 balls', '400 m' or '440 yd', "
            f"got {show_value(text)}"
        )
    colour = _colour(match["colour"], colours, text)
    return colour, float(match["number"]) * _grams(unit, design.yarn, design)


def _colour(name: str | None, colours: Sequence[str], text: str) -> str:
    names = " and ".join(repr(name) for name in colours)
    if name is None:
        if len(colours) > 1:
            raise UsageError(
                f"--have: {text!r} does not say of which colour; write '{colours[0]}: {text.strip()}' "
                f"(the colours are {names})"
            )
        return colours[0]
    by_name = {name.casefold(): name for name in colours if name}
    if name.casefold() not in by_name:
        raise UsageError(
            f"--have: the design has no colour {name!r}; "
            + (f"its colours are {names}" if by_name else "it names no colours, give the amount alone")
        )
    return by_name[name.casefold()]


def _grams(unit: str, yarn: Yarn, design: Design) -> float:
    if unit in GRAMS_PER:
        return GRAMS_PER[unit]
    if unit in _BALLS:
        if yarn.ball_mass_g is None:
            raise UsageError(f"{design.path}: give yarn.ball_mass, or say --have in grams")
        return yarn.ball_mass_g
    thickness = metres_per_gram(yarn)
    if thickness is None:
        raise UsageError(f"{design.path}: give yarn.ball_mass and yarn.ball_length, or say --have in grams")
    return METRES_PER[unit] / thickness


def colour_verdicts(need: YarnNeed, stash: Mapping[str, float]) -> tuple[ColourVerdict, ...]:
    """Each colour of the stash against a size.

    Raises:
        ValueError: a swatch was not weighed, so nothing can be worked out.
    """
    verdicts = []
    for each in need.colours:
        if each.colour in stash:
            if each.net_g is None or each.buy_g is None:
                raise ValueError(f"the yarn in {each.colour or 'this size'} is not known")
            grams = {"have_g": stash[each.colour], "net_g": each.net_g, "buy_g": each.buy_g}
            verdicts.append(ColourVerdict(colour=each.colour, **grams))
    return tuple(verdicts)


def stash_verdict(verdicts: Iterable[ColourVerdict]) -> StashVerdict:
    """The worst of the colours."""
    order = list(StashVerdict)
    return max((each.verdict for each in verdicts), key=order.index, default=StashVerdict.ENOUGH)
