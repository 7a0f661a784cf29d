"""The questions a new designer is asked, each with the flag that answers it beforehand.

Those of one construction are listed by it; the command line turns all of them into flags.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.design.design import NOT_CHOSEN
from schematics.design.publication import Level, SeamSides, SeamStitch
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.grading.draft import REGULAR
from schematics.reading.problems import listed


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its key, which gives its flag, what is asked, and what to know for the answer.

    It is asked of every construction unless ``only`` names some. ``usual`` is taken where it is not answered,
    of a length in centimetres and in inches; None where that depends on other answers, or there is none.
    """

    key: str
    ask: str
    hint: str = ""
    usual: str | tuple[str, str] | None = None
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
ANY = "any"
_OWN = "guessed from the body's if left out"
_LATER = "may be left out for now"
STRETCHES = {"stretch": "20 % 10 %", "panel_stretch": "12 % 5 %", "rib_stretch": "10 % 35 %"}
"""What is guessed of a stretch that is left out, across and along, by the question's key."""


def _stretch(key: str, words: str) -> Question:
    hint = f"across and along, pulled by hand; guessed as '{STRETCHES[key]}' if left out"
    return Question(key, f"Stretch of the {words}", hint, usual="")


_HEAD = (
    Question("title", "Title"),
    Question("designer", "Designer", f"as the pattern prints it; {_LATER}", usual=""),
    Question("level", "Level", f"{listed([each.value for each in Level])}; {_LATER}", usual=""),
    Question("unit", "Unit of lengths", "cm or in", usual="cm"),
)
"""What is asked first."""

_REST = (
    Question("yarn", "Yarn", "its name", usual=NOT_CHOSEN),
    Question("hook", "Hook of the body", f"such as 8 mm or US L/11; {_LATER}", usual=""),
    Question("stitch", "Stitch of the body", "its name in US terms", usual="half double crochet"),
    Question(
        "swatch",
        "Swatch of the body",
        f"washed, dried and measured, such as '{EXAMPLE_SWATCH}', or '19 sts 14 rows over 20 x 15 cm, 46 g'",
    ),
    _stretch("stretch", "body"),
    Question("panel_stitch", "Stitch of the centre panel"),
    Question("panel_swatch", "Swatch of the centre panel", _OWN, usual=""),
    _stretch("panel_stretch", "centre panel"),
    Question("panel_hook", "Hook of the centre panel", "that of the body if left out", usual=""),
    Question("multiple", "Stitch multiple of the panel", f"such as '4' or '4 + 2', or '{ANY}'", usual=ANY),
    Question(
        "row_repeat",
        "Row repeat of the panel",
        f"such as '4', or '2 + 4 + 2' with set-up and closing rows, or '{ANY}'",
        usual=ANY,
    ),
    Question("rib_stitch", "Stitch of the ribbing", usual="single crochet in the back loop"),
    Question("rib_swatch", "Swatch of the ribbing", _OWN, usual=""),
    _stretch("rib_stretch", "ribbing"),
    Question("rib_hook", "Hook of the ribbing", "that of the body if left out", usual=""),
    Question(
        "seam",
        "Seams",
        f"{listed([each.value for each in SeamStitch])}, and how the pieces lie, such as "
        f"'{SeamStitch.SLIP.value}, {SeamSides.RIGHT.value}'; {_LATER}",
        usual="",
    ),
    Question(
        "sizes",
        "Sizes",
        "rows of 'schematics wearers' with commas between, such as 'child/2, child/4, woman/M'",
        usual="child/2, child/4, child/6, child/8, child/10",
    ),
    Question(
        "below_waist", "How long", "how far below the waist the hem hangs at the centre back", ("10", "4")
    ),
    Question("fullness", "How wide", "slim, usual or full", usual="usual"),
    Question(
        "neck_ease",
        "Ease of the neck edge over the head",
        "at rest; negative, such as '-2 cm', where it has to stretch",
        ("-2", "-3/4"),
    ),
    Question("panel_width", "Width of the centre panel", usual=("12", "4 3/4")),
    Question("neck_band", "Depth of the neck ribbing", usual=("4", "1 1/2")),
    Question("arm_bands", "Depth of the arm ribbing", usual=("7", "2 3/4")),
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
    summaries = [f"{word} ({each.summary})" for word, each in constructions.items()]
    yield Question("construction", "Construction", listed(summaries), usual=next(iter(constructions)))
    settings = {setting.key: setting for each in constructions.values() for setting in each.settings}
    for setting in settings.values():
        having = tuple(word for word, each in constructions.items() if setting in each.settings)
        yield Question(setting.key, setting.ask, setting.hint, setting.usual, having)
    yield Question(
        "increases",
        "Increases",
        "regular (equally many on every so many rows, one line in a pattern) or exact (an even taper)",
        REGULAR,
        only=tuple(word for word, each in constructions.items() if each.shaping),
    )
