"""What a maker orders, and what is raised where it cannot be had."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.design.design import Parts, Yarn
from schematics.errors import SchematicsError, UsageError
from schematics.wearer.body import WearerSpec


class NotWearableError(SchematicsError):
    """Nothing that was asked for can be worn; the text is one sentence that says what stops it.

    ``instead`` are changes near those asked for that can be, as an `Order` takes them; empty where none is.
    """

    def __init__(self, sentence: str, instead: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.instead = instead


class UnworkableError(UsageError):
    """Counts that were asked for cannot be worked; ``instead`` is as in `NotWearableError`."""

    def __init__(self, problems: Sequence[str], instead: tuple[str, ...]) -> None:
        super().__init__(*problems)
        self.instead = instead


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What a maker asks for.

    ``parts`` are her fabrics and ``yarn`` is her own, the design's where None. ``changes`` are as she says
    them: counts, suggestions by number, or ``none``. ``stash_g`` is her yarn in grams by colour.
    """

    wearer: WearerSpec
    parts: Parts | None = None
    yarn: Yarn | None = None
    size: str | None = None
    changes: tuple[str, ...] = ()
    graded: bool = False
    stash_g: Mapping[str, float] = field(default_factory=dict)
    name: str = ""

    def asking(self, *, size: str | None, changes: Sequence[str], graded: bool, name: str) -> Order:
        """The order with what is asked of the counts, and whom it is named for."""
        return replace(self, size=size, changes=tuple(changes), graded=graded, name=name)
