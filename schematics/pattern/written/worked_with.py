"""What a part is worked with: its hook, and its colour where the parts have several."""

from __future__ import annotations

from schematics.crochet.hooks_and_yarn import hook_words
from schematics.design.design import Design
from schematics.design.missing import marks


def worked_with(design: Design, part: str) -> str:
    """Words such as ``with a 5.5 mm (US I-9) hook, in sand``; ``with your own hook`` at a maker's own gauge.

    Args:
        design: the design.
        part: the part's key in a spec, such as ``neck_band``.
    """
    fabric = design.parts.by_name[part.replace("_", " ")]
    colour = design.yarn_use.colour(part)
    if design.is_at_own_gauge(fabric):
        hook = f"your own hook for the {part.replace('_', ' ')}"
    elif fabric.hook_mm is None:
        hook = marks(design)[f"fabrics.{fabric.name}.hook"]
    else:
        hook = _with_article(f"{hook_words(fabric.hook_mm)} hook")
    return f"with {hook}, in {colour}" if colour else f"with {hook}"


def _with_article(words: str) -> str:
    """``an 8 mm hook``: numbers that begin with eight, or are eleven or eighteen, begin with a vowel."""
    return f"{'an' if words.startswith(('8', '11 ', '18 ')) else 'a'} {words}"
