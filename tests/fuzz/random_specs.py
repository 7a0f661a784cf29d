"""Specs by number: valid ones with everything a spec may hold, and spoilt ones; one number gives one spec."""

from __future__ import annotations

import random
import string
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from schematics.design.limits import LIMIT_FIELDS
from schematics.reading.spec_block import LARGEST_COUNT
from tests.pattern.designs import dressed_spec
from tests.reading.accidents import damaged, mutated, spliced
from tests.reading.files import GOOD

Spec = dict[str, Any]

SPECS = Path(__file__).parents[2] / "specs"
COUNTED = ("body", "arms", "panel", "neck_band", "arm_bands")
_LETTERS = string.ascii_letters + string.digits + " .-_'&<>#()[]{}!$%+=~^`;" + "äÉßøŁçñΩжЯ½№–’“"
_LENGTHS = {"head_girth": (44, 60), "hand_girth": (13, 22), "height": (75, 180), "forearm_length": (12, 28)}


def valid_text(number: int) -> str:
    """A spec that can be used, whatever its checks may find."""
    spec = _enriched(number)
    if _largest_count(spec) > LARGEST_COUNT:
        return valid_text(number + 1_000_000)
    return _written(spec, random.Random(f"written {number}"))


def wild_text(number: int) -> str:
    """A spec of the right form whose counts are anything from one to the largest there may be."""
    dice = random.Random(f"wild {number}")
    spec = _enriched(number)
    for size in spec["sizes"].values():
        for block in COUNTED:
            size[block] = {key: _count(value, dice) for key, value in size[block].items()}
    return _written(spec, dice)


def spoilt(number: int) -> bytes:
    """A shipped or random spec after one to four accidents."""
    dice = random.Random(f"spoilt {number}")
    sources = _sources()
    text = dice.choice((*sources, valid_text(number)))
    if dice.random() < 0.15:
        text = spliced(text, dice.choice(sources), dice)
    for _ in range(dice.choice((0, 1, 1, 2, 4))):
        text = mutated(text, dice)
    content = text.encode(errors="surrogatepass")
    for _ in range(dice.choice((0, 0, 1, 1, 2))):
        content = damaged(content, dice)
    return content


@cache
def _sources() -> tuple[str, ...]:
    return (GOOD, *(path.read_text(encoding="utf-8") for path in sorted(SPECS.glob("*.yaml"))))


def _largest_count(spec: Spec) -> int:
    return max(
        int(count) for size in spec["sizes"].values() for block in COUNTED for count in size[block].values()
    )


def _enriched(number: int) -> Spec:
    """The spec of that number with names, lengths and options of every kind."""
    dice = random.Random(f"enriched {number}")
    spec = dressed_spec(number)
    spec["title"] = _name(dice, 80)
    spec["yarn"]["name"] = _name(dice, 80)
    if dice.random() < 0.3:
        spec["date"] = f"{dice.randrange(1, 9999):04}-{dice.randrange(1, 13):02}-{dice.randrange(1, 29):02}"
    if dice.random() < 0.3:
        spec["hook"] = dice.choice((4.5, "6 mm", 12))
    if dice.random() < 0.3:
        spec["terms"] = dice.choice(("US", "UK"))
    if dice.random() < 0.3:
        spec["limits"] = dict([_limit(dice)])
    for fabric in spec["fabrics"].values():
        if dice.random() < 0.5:
            fabric["stretch"] = {"across": dice.choice((0, 0.3, "12 %")), "along": dice.choice((0.05, "40%"))}
    _renamed(spec, dice)
    spec["sizes"] = {
        _size_name(index, dice): _dressed(size, dice) for index, size in enumerate(spec["sizes"].values())
    }
    _charted(spec, dice)
    return spec


def _limit(dice: random.Random) -> tuple[str, Any]:
    name, item = dice.choice(sorted(LIMIT_FIELDS.items()))
    return name, item.default


def _renamed(spec: Spec, dice: random.Random) -> None:
    new = {old: f"{_name(dice, 34)} {index}" for index, old in enumerate(spec["fabrics"])}
    spec["fabrics"] = {new[old]: fabric for old, fabric in spec["fabrics"].items()}
    spec["parts"] = {part: new[old] for part, old in spec["parts"].items()}


def _name(dice: random.Random, longest: int) -> str:
    return "".join(dice.choices(_LETTERS, k=dice.randrange(1, longest - 1))).strip() or "n"


def _size_name(index: int, dice: random.Random) -> str:
    letters = "".join(dice.choices("XSLM &'+()[]!äΩ%#;=@", k=dice.randrange(0, 12)))
    return f"{letters.strip()}{index}"


def _dressed(size: Spec, dice: random.Random) -> Spec:
    if dice.random() < 0.5:
        return size
    own = {
        key: round(dice.uniform(*bounds), 1)
        for key, bounds in _LENGTHS.items()
        if dice.random() < 0.5
    }  # fmt: skip
    return size | {"wearer": {"chart": size["wearer"], **{key: f"{cm} cm" for key, cm in own.items()}}}


def _charted(spec: Spec, dice: random.Random) -> None:
    """A plain chart of the panel, where its multiple and repeat say what it must come to."""
    fabric = spec["fabrics"][spec["parts"]["centre_panel"]]
    if dice.random() < 0.5:
        return
    plus, rows = fabric["multiple"]["plus"], fabric["row_repeat"]
    row = f"{plus} hdc, hdc across" if plus else "hdc across"
    sections = {"setup": rows["setup"], "repeat": rows["rows"], "closing": rows["closing"]}
    fabric["chart"] = {section: [row] * count for section, count in sections.items() if count}


def _count(value: Any, dice: random.Random) -> Any:
    if dice.random() < 0.4:
        return value
    count = round(2000 ** dice.random())
    return count + count % 2 if dice.random() < 0.8 else count


class _Quoting(yaml.SafeDumper):
    """Text always in double quotes."""

    def represent_text(self, text: str) -> yaml.Node:
        return self.represent_scalar("tag:yaml.org,2002:str", text, style='"')


_Quoting.add_representer(str, _Quoting.represent_text)


def _written(spec: Spec, dice: random.Random) -> str:
    """The spec as YAML, in one style or another."""
    styles: Sequence[dict[str, Any]] = (
        {"default_flow_style": False},
        {"default_flow_style": None},
        {"default_flow_style": True, "width": 10**6},
        {"allow_unicode": False, "indent": 6},
        {"Dumper": _Quoting},
    )
    style = {"Dumper": yaml.SafeDumper, "sort_keys": False, "allow_unicode": True, **dice.choice(styles)}
    return str(yaml.dump(spec, **style))
