"""The body measurements the checks need, each value with where it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum


class Body(StrEnum):
    """Body measurements by name, all in centimetres. Girths are taken round the body."""

    HEAD_GIRTH = "head_girth"
    NECK_GIRTH = "neck_girth"
    CHEST_GIRTH = "chest_girth"
    UPPER_ARM_GIRTH = "upper_arm_girth"
    WRIST_GIRTH = "wrist_girth"
    HAND_GIRTH = "hand_girth"
    SHOULDER_BREADTH = "shoulder_breadth"
    CENTRE_BACK_NECK_TO_WRIST = "centre_back_neck_to_wrist"
    FOREARM_LENGTH = "forearm_length"
    ARMHOLE_DEPTH = "armhole_depth"
    BACK_WAIST_LENGTH = "back_waist_length"
    HEIGHT = "height"
    NAPE_HEIGHT = "nape_height"
    WAIST_HEIGHT = "waist_height"
    HIP_HEIGHT = "hip_height"
    KNEE_HEIGHT = "knee_height"

    @property
    def words(self) -> str:
        """The name as printed: ``head girth``."""
        return self.value.replace("_", " ")


class Origin(StrEnum):
    """Where a value comes from, most trusted first."""

    OWN = "own"
    CHART = "chart"
    AGE_TABLE = "age table"
    ESTIMATE = "estimate"


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyValue:
    """One body measurement: the typical value and the low and high ends of its spread, in cm.

    A measured wearer has no spread: all three are equal. ``borrowed`` means that the value is
    not from the size's own row or the wearer's own numbers; wherever it is used that is printed.
    ``held`` names the end of the age table that answers for a wearer beyond it: ``youngest, 2 to 3.5
    years``. ``sd_cm`` is the standard deviation of an estimate's error, apart from the errors of what it is
    estimated from.
    """

    cm: float
    low_cm: float
    high_cm: float
    origin: Origin
    source: str
    held: str = ""
    sd_cm: float = 0.0

    @property
    def borrowed(self) -> bool:
        """Whether the value comes from another table than the size's own; all of an age row's do."""
        return self.origin in (Origin.AGE_TABLE, Origin.ESTIMATE)

    @property
    def typical(self) -> BodyValue:
        """The typical value alone, without its spread."""
        return replace(self, low_cm=self.cm, high_cm=self.cm)


class Stage(StrEnum):
    """Who wears it; children's necks and hems are held to stricter rules."""

    BABY = "baby"
    CHILD = "child"
    ADULT = "adult"


@dataclass(frozen=True, slots=True, kw_only=True)
class WearerSpec:
    """Whom a size is for: a chart row, an age in years, own measurements in cm; own ones win.

    Without a chart row it is one person.
    """

    chart: str | None = None
    age_years: float | None = None
    own: Mapping[Body, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """A body: what is known of it, and a label such as ``chart row child/4`` for the drawing.

    ``whose`` says in words whose sizes those of its table are: ``children's``; empty where it is of none.

    ``values`` have their whole spread, ``judged`` are those that verdicts go by. A size that serves many has
    to fit at both ends of their spread; of one ``person`` what was not measured is taken as typical.
    """

    label: str
    whose: str = ""
    stage: Stage
    age_years: float | None
    person: bool
    values: Mapping[Body, BodyValue]
    judged: Mapping[Body, BodyValue] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        judged = self.values
        if self.person:
            judged = {body: value.typical for body, value in judged.items()}
        object.__setattr__(self, "judged", judged)

    def get(self, body: Body) -> BodyValue | None:
        """The value that verdicts go by, None where nothing is known."""
        return self.judged.get(body)
