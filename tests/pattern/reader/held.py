"""How the work is held: which piece lies where, which way each is worked, with which hook.

Directions are those of a right-handed maker, who works from right to left along the edge at the top. Where a
sentence has to say one thing, it follows here from where the pieces lie: the fronts are seen from the front,
so the wearer's right is at the maker's left, and the back from the back.
"""

from __future__ import annotations

import re

from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.page import Block, Grid, Page, Words

_PARTS = {
    "Body": "body",
    "Centre panel": "centre panel",
    "Neck band": "neck band",
    "Arm bands": "arm bands",
}


def held(page: Page) -> None:
    """Hold the pieces as the text says.

    Raises:
        CannotWorkError: they cannot be held so, or the text does not say how.
    """
    _hooks(page)
    _panel_in(page)
    _bands(page)
    if "Side seams" in page:
        _told(
            "Side seams",
            page,
            r"Seam C joins the front to the back on the wearer's right, seam D on the left",
        )
        _seam("Side seams", page, "arm band", {"C": ("left", "front"), "D": ("right", "front")}, "back")


def _panel_in(page: Page) -> None:
    """Foot to hem, each side to the front edge it lies beside."""
    where = "Seams"
    (begun,) = _told("Centre panel", page, r"back and forth, from the (hem|neck)").groups()
    foot, head = _told(
        where, page, r"Row 1 of the panel lies at the (\w+), its last row at the (\w+)"
    ).groups()
    if (begun, foot, head) != ("hem", "hem", "neck"):
        raise CannotWorkError(where, f"a panel from the {begun} has its Row 1 at the {foot}")
    joined = (
        r"Seam A joins the front edge of the body on the wearer's (\w+) to .+, "
        r"seam B that on the wearer's (\w+)"
    )
    on = dict(zip("AB", _told(where, page, joined).groups(), strict=True))
    sides = r"its Row 1 at the bottom, seam A is at its (left|right), seam B at its (left|right)"
    lie = dict(zip("AB", _told(where, page, sides).groups(), strict=True))
    if any({on[seam], lie[seam]} != {"left", "right"} for seam in "AB") or lie["A"] == lie["B"]:
        raise CannotWorkError(
            where, f"seen from the front, the wearer's right is not at the right: {on}, {lie}"
        )
    _seam(where, page, "neck", {seam: (lie[seam], "panel") for seam in "AB"}, "body")


def _seam(where: str, page: Page, end: str, seams: dict[str, tuple[str, str]], other: str) -> None:
    """From the hem up, and where a hook is used which piece is towards the maker.

    ``seams``: by its letter, at which side of a piece the seam is when its right side faces, its hem at the
    bottom, and that piece. With the edge at the top and the hem at the right, the right side of that piece
    faces if the seam is at its right, the wrong side if it is at its left.
    """
    _told(where, page, rf"Work each seam from the hem up to the {end} in ")
    join = _told(
        where, page, rf"Join yarn at the hem(, with the hem at your right,)? and fasten off at the {end}"
    )
    together = re.search(r"(right|wrong) sides together", _text(page[where]))
    if not join[1] or not together:
        return
    for letter, (side, piece) in seams.items():
        right_side_out = together[1] == "wrong"
        near = piece if (side == "right") is right_side_out else other
        _told(where, page, rf"the {near} (?:is towards you )?along seam {letter}\b")


def _bands(page: Page) -> None:
    """The edge at the top, so that one works from right to left: from the back round by the wearer's left."""
    at_top = r"Hold the poncho with the right side facing you and the (\w+) edge at the top"
    on_sides = "side edge" in _text(page["Markers for the arm bands"])
    for name, edge in (("Neck band", "neck"), ("Arm bands", "side" if on_sides else "hem")):
        (top,) = _told(name, page, at_top).groups()
        if top != edge:
            raise CannotWorkError(
                name, f"it is worked onto the {edge} edge, and the {top} edge is at the top"
            )
        _told(name, page, r"two ribbing rows to every two edge sts")
    _told("Arm bands", page, r"Make two, .+, one on the wearer's right and one on the wearer's left")
    if not on_sides:
        _told(
            "Markers for the arm bands",
            page,
            r"with the right side facing you, from seam A round the wearer's right, the back and the "
            r"wearer's left to seam B",
        )
    names = [row[0] for block in page["Neck band"] if isinstance(block, Grid) for row in block.rows]
    panel = [index for index, name in enumerate(names) if name.startswith("top of the centre panel")]
    left = [index for index, name in enumerate(names) if re.search(r"wearer's left|to seam B$", name)]
    right = [index for index, name in enumerate(names) if re.search(r"wearer's right|^.*from seam A ", name)]
    if not panel or "from seam B to seam A" not in names[panel[0]] or not max(left) < panel[0] < min(right):
        raise CannotWorkError(
            "Neck band", f"from right to left these parts do not follow each other: {names}"
        )


def _hooks(page: Page) -> None:
    """Each part with the hook that is listed for it, where hooks are known."""
    listed: dict[str, str] = {}
    for block in page.get("Materials", []):
        if isinstance(block, Words) and (
            match := re.match(r"(\d+(?:\.\d+)? mm) \(.+\), for the (.+)$", block.text)
        ):
            listed |= dict.fromkeys(re.split(r", | and ", match[2]), match[1])
        elif isinstance(block, Words) and (match := re.match(r"your own for the (.+?)(;|$)", block.text)):
            listed |= dict.fromkeys(re.split(r", | and ", match[1]), "your own")
    for heading, part in _PARTS.items():
        text = _text(page[heading])
        match = re.search(r"with an? (\d+(?:\.\d+)? mm) \(.+?\) hook", text)
        if match and listed.get(part) != match[1]:
            raise CannotWorkError(heading, f"its hook is {match[1]}, the list has {listed.get(part)}")
        own = re.search(r"with your own hook for the ((?:centre )?\w+(?: bands?)?)", text)
        if (own[1] if own else None) != (part if listed.get(part) == "your own" else None):
            raise CannotWorkError(heading, f"its hook is {own and own[0]!r}, the list has {listed.get(part)}")


def _text(blocks: list[Block]) -> str:
    return " ".join(block.text for block in blocks if isinstance(block, Words))


def _told(where: str, page: Page, form: str) -> re.Match[str]:
    match = re.search(form, _text(page[where]))
    if match is None:
        raise CannotWorkError(where, f"nothing is told such as {form!r}")
    return match
