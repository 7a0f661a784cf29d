"""The stitches of the trade that apply to flat work.

Source: the Craft Yarn Council's master list of crochet abbreviations and its list of special stitches, from
memory. How many legs or loops a special stitch has where the row does not say, and how the basic stitches
are worked: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.stitches import Height, Post, Stitch, StitchBook
from schematics.crochet.symbols import Stroke, StrokeKind, Symbol, read_symbol

SYMBOLS = {
    Height.SLIP: "dot",
    Height.SINGLE: "cross",
    Height.HALF_DOUBLE: "stem, cap",
    Height.DOUBLE: "stem, cap, 1 bar",
    Height.TREBLE: "stem, cap, 2 bars",
    Height.DOUBLE_TREBLE: "stem, cap, 3 bars",
    Height.TRIPLE_TREBLE: "stem, cap, 4 bars",
}
_TALL = (Height.HALF_DOUBLE, Height.DOUBLE, Height.TREBLE, Height.DOUBLE_TREBLE)
_POSTS = (Height.SINGLE, *_TALL)
_TOGETHER = (Height.SINGLE, Height.HALF_DOUBLE, Height.DOUBLE, Height.TREBLE)
_NUMBERS = range(2, 10)
_POSTS_TOGETHER = (2, 3)
_THROUGH_ALL = "yarn over and pull through all loops on the hook"
_WORK = "(yarn over, insert hook in the stitch, yarn over and pull up a loop"


def _uk(height: Height, abbreviation: str, words: str) -> tuple[str, str]:
    """An abbreviation and words with the height's UK name in place of ``{}``."""
    return abbreviation.format(height.uk), words.format(height.uk_words)


def _plain(height: Height) -> Stitch:
    uk = None if height.us == height.uk else (height.uk, height.uk_words)
    return Stitch(
        abbreviation=height.us, words=height.us_words, symbol=read_symbol(SYMBOLS[height]), height=height,
        loops=True, has_post=height is not Height.SLIP, uk=uk, basics=_basics(height),
    )  # fmt: skip


def _basics(height: Height) -> str:
    """How a plain stitch is worked; the hook goes under both loops unless a row says otherwise."""
    first, up = "insert the hook in the stitch", "yarn over and pull up a loop"
    if height is Height.CHAIN:
        return "yarn over and pull it through the loop on the hook; the first one is made on a slip knot"
    if height is Height.SLIP:
        return f"{first}, yarn over and pull it through the stitch and the loop on the hook"
    if height is Height.SINGLE:
        return f"{first}, {up}; yarn over and pull through both loops on the hook"
    if height is Height.HALF_DOUBLE:
        return f"yarn over, {first}, {up}; yarn over and pull through all 3 loops on the hook"
    bars = _bars(height)
    over = "yarn over" if bars == 1 else f"yarn over {_times(bars)}"
    return f"{over}, {first}, {up}; (yarn over and pull through 2 loops) {_times(bars + 1)}"


def _times(number: int) -> str:
    return "twice" if number == 2 else f"{number} times"


def _extended(height: Height) -> Stitch:
    return Stitch(
        abbreviation=f"e{height.us}", words=f"extended {height.us_words}", height=height, loops=True,
        symbol=(*read_symbol(SYMBOLS[height]), Stroke(StrokeKind.EYE)),
        uk=_uk(height, "ex{}", "extended {}"),
        definition=(
            f"begin as for {height.us}: pull up a loop, then yarn over and pull through 1 loop; "
            f"finish as for {height.us}"
        ),
    )  # fmt: skip


def _post(height: Height, post: Post) -> Stitch:
    short, hook = ("FP", "hook right") if post is Post.FRONT else ("BP", "hook left")
    goes = "from the front, round behind" if post is Post.FRONT else "from the back, round in front of"
    return Stitch(
        abbreviation=f"{short}{height.us}", words=f"{post} post {height.us_words}", height=height, post=post,
        symbol=(*read_symbol(SYMBOLS[height]), *read_symbol(hook)),
        uk=_uk(height, f"{short}{{}}", f"{post} post {{}}"),
        definition=f"insert the hook {goes} the post of the stitch, and out again; work {height.us}",
    )  # fmt: skip


def _bars(height: Height) -> int:
    """Yarn overs of a stitch from single crochet up, which is the bars of its symbol."""
    return max(0, list(Height).index(height) - list(Height).index(Height.HALF_DOUBLE))


def _with_bars(height: Height, *strokes: Stroke) -> Symbol:
    bars = _bars(height)
    return (*strokes, Stroke(StrokeKind.BARS, bars)) if bars else strokes


def _together(height: Height, number: int) -> Stitch:
    head = read_symbol("cross" if height is Height.SINGLE else "cap")
    return Stitch(
        abbreviation=f"{height.us}{number}tog", words=f"{height.us_words} {number} together", height=height,
        uses=number, loops=True, symbol=_with_bars(height, Stroke(StrokeKind.LEGS, number), *head),
        uk=_uk(height, f"{{}}{number}tog", f"{{}} {number} together"),
        definition=(
            f"work {height.us} in each of the next {number} stitches up to its last pull-through; "
            f"then {_THROUGH_ALL}"
        ),
    )  # fmt: skip


def _posts_together(height: Height, post: Post, number: int) -> Stitch:
    short, hook = ("FP", "hook right") if post is Post.FRONT else ("BP", "hook left")
    return Stitch(
        abbreviation=f"{short}{height.us}{number}tog",
        words=f"{post} post {height.us_words} {number} together",
        height=height, uses=number, post=post,
        symbol=(*_together(height, number).symbol, *read_symbol(hook)),
        uk=_uk(height, f"{short}{{}}{number}tog", f"{post} post {{}} {number} together"),
        definition=(
            f"work {short}{height.us} round the post of each of the next {number} stitches up to its last "
            f"pull-through; then {_THROUGH_ALL}"
        ),
    )  # fmt: skip


def _special(
    name: str, words: str, height: Height, number: int, makes: int, symbol: Symbol, how: str
) -> Stitch:
    return Stitch(
        abbreviation=f"{number}-{height.us} {name}", words=f"{words} of {number} {height.us_words}",
        height=height, makes=makes, loops=True, symbol=symbol, definition=how,
        uk=_uk(height, f"{number}-{{}} {name}", f"{words} of {number} {{}}"),
    )  # fmt: skip


def _one_leg(height: Height) -> str:
    if height is Height.HALF_DOUBLE:
        return f"{_WORK})"
    return f"(work {height.us} up to its last pull-through)"


def cluster(height: Height, number: int) -> Stitch:
    """Legs in one stitch, closed together."""
    symbol = _with_bars(height, Stroke(StrokeKind.LEAF, number), Stroke(StrokeKind.ROOF))
    how = f"{_one_leg(height)} {number} times in the same stitch; {_THROUGH_ALL}"
    return _special("cl", "cluster", height, number, 1, symbol, how)


def bobble(height: Height, number: int) -> Stitch:
    """Legs in one stitch, closed together, pushed out to the right side."""
    symbol = _with_bars(height, Stroke(StrokeKind.LEAF, number))
    how = (
        f"{_one_leg(height)} {number} times in the same stitch; {_THROUGH_ALL}; push it out to the right side"
    )
    return _special("bo", "bobble", height, number, 1, symbol, how)


def popcorn(height: Height, number: int) -> Stitch:
    """Whole stitches in one stitch, the last pulled through the first."""
    symbol = _with_bars(height, Stroke(StrokeKind.FAN, number), Stroke(StrokeKind.CROWN))
    how = (
        f"work {number} {height.us} in the same stitch; take the hook out, put it through the top of the "
        "first of them from the right side to the wrong side, catch the loop that was left, pull it through"
    )
    return _special("pc", "popcorn", height, number, 1, symbol, how)


def shell(height: Height, number: int) -> Stitch:
    """Whole stitches in one stitch."""
    symbol = _with_bars(height, Stroke(StrokeKind.FAN, number), *read_symbol("cap"))
    return _special(
        "sh", "shell", height, number, number, symbol, f"work {number} {height.us} in the same stitch"
    )


def puff(number: int) -> Stitch:
    """Long loops pulled up in one stitch, closed together."""
    return Stitch(
        abbreviation=f"{number}-loop puff", words=f"puff stitch of {number} loops", height=Height.HALF_DOUBLE,
        loops=True, symbol=(Stroke(StrokeKind.LOOPS, number),),
        definition=f"{_WORK} as tall as the row) {number} times in the same stitch; {_THROUGH_ALL}",
    )  # fmt: skip


def _named(stitch: Stitch, abbreviation: str) -> Stitch:
    """The same under its short name, for the usual number."""
    uk = (abbreviation, stitch.uk[1]) if stitch.uk else None
    return Stitch(
        abbreviation=abbreviation, words=stitch.words, height=stitch.height, makes=stitch.makes, loops=True,
        symbol=stitch.symbol, definition=stitch.definition, uk=uk,
    )  # fmt: skip


def _families() -> Iterator[Stitch]:
    for number in _NUMBERS:
        for height in _TOGETHER:
            yield _together(height, number)
            if number in _POSTS_TOGETHER:
                yield from (_posts_together(height, post, number) for post in Post)
    for make in (cluster, bobble, popcorn, shell):
        for height in _TALL:
            for number in _NUMBERS:
                yield make(height, number)
    yield from map(puff, _NUMBERS)


STITCHES = (
    Stitch(
        abbreviation="ch", words="chain", uses=0, has_post=False, height=Height.CHAIN,
        symbol=read_symbol("oval"), basics=_basics(Height.CHAIN),
    ),
    Stitch(
        abbreviation="sk", words="skip the next stitch", makes=0, has_post=False, height=Height.NONE,
        symbol=(), uk=("miss", "miss the next stitch"),
    ),
    Stitch(
        abbreviation="picot", words="picot of 3 chains", uses=0, makes=0, has_post=False, height=Height.CHAIN,
        symbol=read_symbol("crown"), definition="chain 3, slip stitch in the top of the stitch just made",
    ),
    *map(_plain, SYMBOLS),
    *(_extended(height) for height in (Height.SINGLE, *_TALL[:3])),
    *(_post(height, post) for height in _POSTS for post in Post),
    Stitch(
        abbreviation="V-st", words="V stitch: double crochet, chain, double crochet in one stitch", makes=3,
        height=Height.DOUBLE, symbol=read_symbol("2 fan, cap, 1 bar, oval"),
        definition="work dc, ch 1, dc in the same stitch",
        uk=("V-st", "V stitch: treble crochet, chain, treble crochet in one stitch"),
    ),
    _named(cluster(Height.DOUBLE, 3), "cl"),
    _named(bobble(Height.DOUBLE, 5), "bo"),
    _named(popcorn(Height.DOUBLE, 5), "pc"),
    _named(shell(Height.DOUBLE, 5), "sh"),
    _named(puff(3), "puff"),
    *_families(),
)  # fmt: skip
"""In the order of a key: chains, low to tall, extended, round posts, several in one, several together."""

TRADE = StitchBook(STITCHES)
"""The stitches every chart may use."""
