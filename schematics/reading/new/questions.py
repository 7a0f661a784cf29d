"""The questions a new designer is asked, each with the flag that answers it beforehand.

Those of one construction are listed by it; the command line turns all of them into flags.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.reading.problems import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question: its key, which gives its flag, what is asked, and what to know for the answer.

    It is asked of every construction unless ``only`` names some.
    """

    key: str
    ask: str
    hint: str = ""
    only: tuple[str, ...] = ()

    def asked_of(self, construction: str | None) -> bool:
        """Whether it is asked of that construction, None where that is not answered yet."""
        return not self.only or construction in self.only

    @property
    def flag(self) -> str:
        """The flag on the command line."""
        return f"--{self.key.replace('_', '-')}"

    @property
    def about(self) -> str:
        """What the flag's help says."""
        return f"{self.ask}: {self.hint}." if self.hint else f"{self.ask}."


EXAMPLE_SWATCH = "19 sts 14 rows over 20 cm"
EXAMPLES = {"title": "Lake poncho", "swatch": EXAMPLE_SWATCH}
"""An answer to each question that may have no usual one."""
_OWN = "guessed from the body's if left out"

_HEAD = (
    Question(key="title", ask="Title"),
    Question(key="unit", ask="Unit of lengths", hint="cm or in"),
)
"""What is asked first."""

_REST = (
    Question(key="yarn", ask="Yarn", hint="its name and fibre"),
    Question(key="stitch", ask="Stitch of the body", hint="its name in US terms"),
    Question(
        key="swatch",
        ask="Swatch of the body",
        hint=f"washed, dried and measured, such as '{EXAMPLE_SWATCH}', or "
        "'19 sts 14 rows over 20 x 15 cm, 46 g'",
    ),
    Question(
        key="stretch",
        ask="Stretch of the body",
        hint="what the swatch gives across and along, pulled by hand, such as '20 % 10 %'",
    ),
    Question(key="panel_stitch", ask="Stitch of the centre panel"),
    Question(key="panel_swatch", ask="Swatch of the centre panel", hint=_OWN),
    Question(key="panel_stretch", ask="Stretch of the centre panel", hint="across and along"),
    Question(key="multiple", ask="Stitch multiple of the panel", hint="such as '4' or '4 + 2', or 'any'"),
    Question(
        key="row_repeat",
        ask="Row repeat of the panel",
        hint="such as '4', or '2 + 4 + 2' with set-up and closing rows, or 'any'",
    ),
    Question(key="rib_stitch", ask="Stitch of the ribbing"),
    Question(key="rib_swatch", ask="Swatch of the ribbing", hint=_OWN),
    Question(key="rib_stretch", ask="Stretch of the ribbing", hint="across and along"),
    Question(
        key="sizes",
        ask="Sizes",
        hint="rows of 'schematics wearers' with commas between, such as 'child/2, child/4, woman/M'",
    ),
    Question(
        key="below_waist", ask="How long", hint="how far below the waist the hem hangs at the centre back"
    ),
    Question(key="fullness", ask="How wide", hint="slim, usual or full"),
    Question(
        key="neck_ease",
        ask="Ease of the neck edge over the head",
        hint="at rest; negative, such as '-2 cm', where it has to stretch",
    ),
    Question(key="panel_width", ask="Width of the centre panel"),
    Question(key="neck_band", ask="Depth of the neck ribbing"),
    Question(key="arm_bands", ask="Depth of the arm ribbing"),
)
"""What is asked after the construction."""


def offered() -> dict[str, Construction]:
    """The constructions that can be started from a swatch, by their words."""
    return {word: each for word, each in CONSTRUCTIONS.items() if each.fullness}


def questions() -> tuple[Question, ...]:
    """Every question in the order it is asked."""
    return (*_HEAD, *_of_constructions(), *_REST)


def _of_constructions() -> Iterator[Question]:
    constructions = offered()
    yield Question(
        key="construction",
        ask="Construction",
        hint=listed([f"{word} ({each.summary})" for word, each in constructions.items()]),
    )
    settings = {setting.key: setting for each in constructions.values() for setting in each.settings}
    for setting in settings.values():
        having = [word for word, each in constructions.items() if setting in each.settings]
        yield Question(key=setting.key, ask=setting.ask, hint=setting.hint, only=tuple(having))
    yield Question(
        key="increases",
        ask="Increases",
        hint="regular (equally many on every so many rows, one line in a pattern) or exact (an even taper)",
        only=tuple(word for word, each in constructions.items() if each.shaping),
    )
