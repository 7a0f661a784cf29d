"""Changed counts, in words."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.design.design import Design, Size
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of


@dataclass(frozen=True, slots=True, kw_only=True)
class CountChange:
    """One count of a size that is worked otherwise; ``words`` such as ``8 more body rows (32 in all)``."""

    key: str
    before: int
    after: int
    words: str


def count_changes(before: Size, after: Size, design: Design) -> tuple[CountChange, ...]:
    """The counts in which two sizes of a design differ, in the order of a spec."""
    old, new = counts_of(before), counts_of(after)
    return tuple(
        CountChange(key=key, before=old[key], after=new[key], words=_words(key, old[key], new[key], design))
        for key in old
        if old[key] != new[key] and type(old[key]) is int
    )


def _words(key: str, before: int, after: int, design: Design) -> str:
    noun = CONSTRUCTIONS[design.construction].nouns.get(key, (key, key))
    if isinstance(noun, str):
        return noun.format(before=before, after=after)
    change, panel = abs(after - before), design.parts.centre_panel
    repeats = {"panel.stitches": panel.stitch_rule.step or 1, "panel.rows": panel.row_rule.repeat}
    repeat = repeats.get(key, 1)
    more = "more" if after > before else "fewer"
    one, several = noun
    if repeat > 1 and change % repeat == 0:
        times = change // repeat
        across = "across" if key == "panel.stitches" else "up"
        text = f"{times} {more} repeat{'' if times == 1 else 's'} {across} the panel"
        return f"{text} ({after} {several} in all)"
    return f"{change} {more} {one if change == 1 else several} ({after} in all)"
