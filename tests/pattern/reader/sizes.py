"""One size picked out of every size string."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.pattern.reader.complaint import CannotWorkError

_NUMBER, _SIDE = r"(?:\d+|–)", r"(?:RS|WS)"
_STRING = re.compile(
    "|".join(rf"(?<![\w.]){each} \({each}(?:, {each})*\)" for each in (_NUMBER, _SIDE))
)  # fmt: skip
_ONLY = re.compile(r"Sizes? (?P<names>.+?) only, (?P<rest>[A-Z].+)$", re.DOTALL)


@dataclass(frozen=True)
class Chosen:
    """The size to be made, among those of a line; the order is that of the pattern."""

    names: tuple[str, ...]
    name: str

    def among(self, names: tuple[str, ...]) -> Chosen | None:
        """The same among fewer; None where it is not one of them."""
        for name in names:
            if name not in self.names:
                raise CannotWorkError(f"sizes {', '.join(names)}", f"there is no size {name}")
        return Chosen(names, self.name) if self.name in names else None

    def pick(self, text: str) -> str:
        """The text with one number in place of each size string."""
        return _STRING.sub(self._one, text)

    def of_label(self, label: str) -> tuple[Chosen | None, str]:
        """Who works a line of that label, and the label without saying so, this size's numbers in it."""
        if match := _ONLY.match(label):
            only = self.among(listed_names(match["names"]))
            return only, only.pick(match["rest"]) if only else match["rest"]
        return self, self.pick(label)

    def _one(self, match: re.Match[str]) -> str:
        first, others = match[0].removesuffix(")").split(" (")
        values = [first, *others.split(", ")]
        if len(values) != len(self.names):
            what = f"{match[0]} has {len(values)} figures for {len(self.names)} sizes"
            raise CannotWorkError(f"sizes {', '.join(self.names)}", what)
        return values[self.names.index(self.name)]


def listed_names(text: str) -> tuple[str, ...]:
    """``2, 4 and S``."""
    return tuple(re.split(r", | and ", text))


def sizes_of(line: str) -> tuple[str, ...]:
    """The names in ``Sizes 2 (4, 6).`` or ``One size: 2.``"""
    match = re.fullmatch(r"(?:Sizes|One size:) ([^()]+?)(?: \((.+)\))?\.", line)
    if match is None:
        raise CannotWorkError("Sizes", f"no sizes in {line!r}")
    return (match[1], *(match[2].split(", ") if match[2] else ()))
