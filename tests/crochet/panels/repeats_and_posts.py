"""Motifs and repeats, posts some rows below, posts on the surface, crossings."""

from __future__ import annotations

from tests.crochet.panels.panel import Panel

MOTIF = "fixed motif, edges, repeats"
POSTS = "posts rows below"
SURFACE = "surface posts"
CROSSING = "crossings"

MOTIFS = (
    Panel(
        name="lone diamond", shows=MOTIF, multiple=13, setup=("13 hdc",),
        repeat=("6 hdc, FPdc, 6 hdc", "13 hdc", "4 hdc, FPdc, 3 hdc, FPdc, 4 hdc", "13 hdc"),
        counts={13: (13, 13, 13, 13, 13)},
        written_out={4: "hdc, hdc, hdc, hdc, FPdc, hdc, hdc, hdc, FPdc, hdc, hdc, hdc, hdc"},
    ),
    Panel(
        name="bobble diamond", shows=MOTIF, multiple=9, setup=("9 sc",), first_row="WS",
        repeat=("4 sc, 5-dc bo, 4 sc", "9 sc", "2 sc, 5-dc bo, 3 sc, 5-dc bo, 2 sc", "9 sc"),
        counts={9: (9, 9, 9, 9, 9)},
        written_out={4: "sc, sc, 5-dc bo, sc, sc, sc, 5-dc bo, sc, sc"},
    ),
    Panel(
        name="ribs between edges", shows=MOTIF, multiple=(4, 2), setup=("hdc across",),
        repeat=("hdc, (2 FPdc, 2 hdc) across, hdc", "hdc, (2 hdc, 2 BPdc) across, hdc"),
        counts={10: (10, 10, 10), 18: (18, 18, 18)},
        written_out={2: "hdc, FPdc, FPdc, hdc, hdc, FPdc, FPdc, hdc, hdc, hdc"},
    ),
    Panel(
        name="wide edges", shows=MOTIF, multiple=(6, 8), setup=("sc across",),
        repeat=("4 sc, (3 sc, 3 FPdc) across, 4 sc", "sc across"), closing=("hdc across",),
        counts={14: (14, 14, 14, 14), 26: (26, 26, 26, 26)},
        written_out={2: "sc, sc, sc, sc, sc, sc, sc, FPdc, FPdc, FPdc, sc, sc, sc, sc"},
    ),
    Panel(
        name="motif in the middle of plain", shows=MOTIF, multiple=(2, 6), setup=("sc across",),
        repeat=("sc across, 6 hdc, sc across", "sc across, 2 BPdc, 2 sc, 2 BPdc, sc across"),
        counts={10: (10, 10, 10), 14: (14, 14, 14)},
        written_out={3: "sc, sc, BPdc, BPdc, sc, sc, BPdc, BPdc, sc, sc"},
    ),
    Panel(
        name="ribs either side", shows=MOTIF, multiple=(8, 3), setup=("dc across",),
        repeat=("(2 FPdc, 2 dc) across, 3 dc, (2 dc, 2 FPdc) across", "dc across"),
        counts={11: (11, 11, 11), 19: (19, 19, 19)},
        written_out={2: "FPdc, FPdc, dc, dc, dc, dc, dc, dc, dc, FPdc, FPdc"},
    ),
    Panel(
        name="a group beside the repeat", shows=MOTIF, multiple=(4, 9), setup=("dc across",),
        repeat=("2 dc, (FPdc, BPdc) x 3, (2 dc, 2 FPdc) across, dc", "dc, (2 BPdc, 2 dc) across, 8 dc"),
        counts={13: (13, 13, 13), 21: (21, 21, 21)},
        written_out={2: "dc, dc, FPdc, BPdc, FPdc, BPdc, FPdc, BPdc, dc, dc, FPdc, FPdc, dc"},
    ),
)  # fmt: skip

BELOW = (
    Panel(
        name="trebles two rows below", shows=POSTS, multiple=(4, 3), setup=("sc across", "sc across"),
        repeat=("3 sc, (FPtr 2 rows below, 3 sc) across", "sc across"),
        counts={11: (11, 11, 11, 11), 15: (15, 15, 15, 15)},
        written_out={3: "sc, sc, sc, FPtr, sc, sc, sc, FPtr, sc, sc, sc"},
    ),
    Panel(
        name="long weave", shows=POSTS, multiple=(6, 2), setup=("dc across",) * 3,
        repeat=(
            "dc, (3 FPdtr 3 rows below, 3 dc) across, dc", "dc across",
            "dc, (3 dc, 3 BPdtr 3 rows below) across, dc", "dc across",
        ),
        counts={8: (8,) * 7, 14: (14,) * 7},
        written_out={4: "dc, FPdtr, FPdtr, FPdtr, dc, dc, dc, dc"},
    ),
    Panel(
        name="posts over stitches worked together", shows=POSTS, multiple=(3, 0), setup=("dc across",),
        repeat=("(dc2tog, 2 dc in next st) across", "(FPtr 2 rows below, dc, FPtr 2 rows below) across"),
        counts={6: (6, 6, 6), 9: (9, 9, 9)},
        written_out={2: "dc2tog, dc, dc, dc2tog, dc, dc", 3: "FPtr, dc, FPtr, FPtr, dc, FPtr"},
    ),
    Panel(
        name="posts of each side together", shows=POSTS, multiple=(7, 0), setup=("dc across",),
        repeat=("(FPdc2tog, 2 dc in next st, BPtr3tog, 3 dc in next st) across", "dc across"),
        counts={7: (7, 7, 7), 14: (14, 14, 14)},
        written_out={2: "FPdc2tog, dc, dc, BPtr3tog, dc, dc, dc"},
    ),
    Panel(
        name="posts from both sides", shows=POSTS, multiple=(3, 1), setup=("hdc across", "hdc across"),
        repeat=("hdc, (2 hdc, FPtr 2 rows below) across", "hdc, (BPtr 2 rows below, 2 hdc) across"),
        counts={7: (7, 7, 7, 7), 13: (13, 13, 13, 13)},
        written_out={4: "hdc, BPtr, hdc, hdc, BPtr, hdc, hdc"},
    ),
)  # fmt: skip

FOUR = "4 sl st blo"
ON_SURFACE = (
    Panel(
        name="a line on slip stitch", shows=SURFACE, multiple=(8, 0),
        setup=("sl st blo across",) * 4 + (f"({FOUR}, surface tr flo 3 rows below, {FOUR}) across",),
        repeat=("sl st blo across", f"({FOUR}, surface FPtr 2 rows below, {FOUR}) across"),
        counts={8: (8,) * 7, 16: (16,) * 7},
        written_out={7: "sl st, sl st, sl st, sl st, FPtr, sl st, sl st, sl st, sl st"},
    ),
    Panel(
        name="lines that cross on slip stitch", shows=SURFACE, multiple=(8, 2),
        setup=("sl st blo across",) * 4 + (
            "sl st blo, (3 sl st blo, surface tr flo 3 rows below, sl st blo, surface tr flo 3 rows below, "
            "4 sl st blo) across, sl st blo",
        ),
        repeat=(
            "sl st blo across",
            "sl st blo, (3 sl st blo, surface FPtr 2 rows below round post 5, sl st blo, "
            "surface FPtr 2 rows below round post 4 in front, 4 sl st blo) across, sl st blo",
            "sl st blo across",
            "sl st blo, (3 sl st blo, surface FPtr 2 rows below, sl st blo, surface FPtr 2 rows below, "
            "4 sl st blo) across, sl st blo",
        ),
        counts={10: (10,) * 9, 18: (18,) * 9},
        written_out={7: "sl st, sl st, sl st, sl st, FPtr, sl st, FPtr, sl st, sl st, sl st, sl st, sl st"},
    ),
    Panel(
        name="a ridge on half doubles", shows=SURFACE, multiple=9, setup=("9 hdc", "9 hdc"),
        repeat=("4 hdc, surface FPtr 2 rows below, 5 hdc", "9 hdc"),
        counts={9: (9, 9, 9, 9)},
        written_out={3: "hdc, hdc, hdc, hdc, FPtr, hdc, hdc, hdc, hdc, hdc"},
    ),
)  # fmt: skip

CROSSED = (
    Panel(
        name="cable on single crochet", shows=CROSSING, multiple=13, setup=("13 sc", "13 sc"),
        repeat=(
            "4 sc, (2 FPtr 2 rows below round posts 4 and 5, sc, 2 FPtr 2 rows below round posts 1 and 2 "
            "in front), 4 sc",
            "13 sc", "4 sc, 2 FPtr 2 rows below, sc, 2 FPtr 2 rows below, 4 sc", "13 sc",
        ),
        counts={13: (13,) * 6},
        written_out={3: "sc, sc, sc, sc, FPtr, FPtr, sc, FPtr, FPtr, sc, sc, sc, sc"},
    ),
    Panel(
        name="two over two behind", shows=CROSSING, multiple=(6, 2), setup=("dc across",),
        repeat=(
            "dc, (2 FPtr round posts 3 and 4, 2 FPtr round posts 1 and 2 behind, 2 dc) across, dc",
            "dc, (2 dc, 4 BPdc) across, dc",
        ),
        counts={8: (8, 8, 8), 14: (14, 14, 14)},
        written_out={2: "dc, FPtr, FPtr, FPtr, FPtr, dc, dc, dc"},
    ),
    Panel(
        name="crossed doubles", shows=CROSSING, multiple=(2, 0), setup=("sc across",),
        repeat=("(dc in st 2, dc in st 1 behind) across", "sc across"),
        counts={4: (4, 4, 4), 8: (8, 8, 8)},
        written_out={2: "dc, dc, dc, dc"},
    ),
    Panel(
        name="crossed doubles with a gap", shows=CROSSING, multiple=(3, 2), setup=("sc across",),
        repeat=("dc, (sk, dc in st 3, ch, dc in st 1 in front) across, dc", "sc across"),
        counts={8: (8, 8, 8), 11: (11, 11, 11)},
        written_out={2: "dc, sk, dc, ch, dc, sk, dc, ch, dc, dc"},
    ),
    Panel(
        name="three over three", shows=CROSSING, multiple=10, setup=("10 sc", "10 sc"),
        repeat=(
            "2 sc, (3 FPdtr 2 rows below round posts 4 to 6, 3 FPdtr 2 rows below round posts 1 to 3 "
            "in front), 2 sc",
            "10 sc", "2 sc, 6 FPtr 2 rows below, 2 sc", "10 sc",
        ),
        counts={10: (10,) * 6},
        written_out={3: "sc, sc, FPdtr, FPdtr, FPdtr, FPdtr, FPdtr, FPdtr, sc, sc"},
    ),
)  # fmt: skip
