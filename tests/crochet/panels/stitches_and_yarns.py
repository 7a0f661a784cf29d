"""Several in one, bobbles and their like, loops, colours, sides, own stitches, tapers, UK terms."""

from __future__ import annotations

from tests.crochet.panels.panel import Panel

SEVERAL = "several in one, spaces"
NUMBERS = "bobble, popcorn, puff, cluster"
LOOPS = "loop choice, third loop, spike"
COLOURS = "colour per row or stitch"
SIDES = "side of row 1"
OWN = "own stitches"
TAPERS = "tapers"
UK = "UK terms"

IN_ONE = (
    Panel(
        name="shells", shows=SEVERAL, multiple=(6, 0), setup=("sc across",),
        repeat=("(sk 2, sh, sk 2, sc) across", "dc across"),
        counts={12: (12, 12, 12), 18: (18, 18, 18)},
        written_out={2: "sk, sk, sh, sk, sk, sc, sk, sk, sh, sk, sk, sc"},
    ),
    Panel(
        name="V stitches and fans", shows=SEVERAL, multiple=(3, 0), setup=("sc across",),
        repeat=("(sk, V-st, sk) across", "(sk, 3 dc in ch-1 sp, sk) across"),
        counts={6: (6, 6, 6), 12: (12, 12, 12)},
        written_out={3: "sk, dc, dc, dc, sk, sk, dc, dc, dc, sk"},
    ),
    Panel(
        name="clusters of doubles in spaces", shows=SEVERAL, multiple=(3, 0), setup=("dc across",),
        repeat=("(sk, (2 dc, ch 2, 2 dc) in next st, sk) across", "(sk 2, 3 dc in ch-2 sp, sk 2) across"),
        counts={6: (6, 12, 6), 9: (9, 18, 9)},
        written_out={2: "sk, dc, dc, ch, ch, dc, dc, sk, sk, dc, dc, ch, ch, dc, dc, sk"},
    ),
    Panel(
        name="waves", shows=SEVERAL, multiple=(4, 1), setup=("dc across",),
        repeat=("dc, (3 dc in next st, dc3tog) across", "dc, (dc3tog, 3 dc in next st) across"),
        counts={9: (9, 9, 9), 13: (13, 13, 13)},
        written_out={2: "dc, dc, dc, dc, dc3tog, dc, dc, dc, dc3tog"},
    ),
    Panel(
        name="one more in the same", shows=SEVERAL, multiple=(3, 0), setup=("dc across",),
        repeat=("(dc, dc in same st, dc2tog) across", "dc across"),
        counts={6: (6, 6, 6), 9: (9, 9, 9)},
        written_out={2: "dc, dc, dc2tog, dc, dc, dc2tog"},
    ),
    Panel(
        name="mesh and back", shows=SEVERAL, multiple=(2, 1), setup=("dc across",),
        repeat=("dc, (ch, sk, dc) across", "dc, (dc in ch sp, FPdc) across"),
        counts={5: (5, 5, 5), 9: (9, 9, 9)},
        written_out={2: "dc, ch, sk, dc, ch, sk, dc", 3: "dc, dc, FPdc, dc, FPdc"},
    ),
)  # fmt: skip

NUMBERED = (
    Panel(
        name="bobbles", shows=NUMBERS, multiple=(4, 3), setup=("sc across",),
        repeat=("3 sc, (5-dc bo, 3 sc) across", "sc across"),
        counts={7: (7, 7, 7), 15: (15, 15, 15)}, written_out={2: "sc, sc, sc, 5-dc bo, sc, sc, sc"},
    ),
    Panel(
        name="popcorns", shows=NUMBERS, multiple=(3, 1), setup=("dc across",),
        repeat=("dc, (4-dc pc, 2 dc) across", "dc across"),
        counts={7: (7, 7, 7), 10: (10, 10, 10)}, written_out={2: "dc, 4-dc pc, dc, dc, 4-dc pc, dc, dc"},
    ),
    Panel(
        name="puffs", shows=NUMBERS, multiple=(2, 1), setup=("hdc across",),
        repeat=("(3-loop puff, ch, sk) across, hdc", "hdc, (hdc in ch sp, hdc) across"),
        counts={5: (5, 5, 5), 9: (9, 9, 9)},
        written_out={2: "3-loop puff, ch, sk, 3-loop puff, ch, sk, hdc"},
    ),
    Panel(
        name="clusters", shows=NUMBERS, multiple=(2, 1), setup=("dc across",),
        repeat=("(3-dc cl, ch, sk) across, dc", "dc across"),
        counts={5: (5, 5, 5), 7: (7, 7, 7)}, written_out={2: "3-dc cl, ch, sk, 3-dc cl, ch, sk, dc"},
    ),
    Panel(
        name="sampler of raised stitches", shows=NUMBERS, multiple=11, setup=("11 sc",),
        repeat=("sc, 4-dc pc, sc, 5-loop puff, sc, 2-hdc cl, sc, 4-tr bo, sc, bo, sc", "11 sc"),
        counts={11: (11, 11, 11)},
        written_out={2: "sc, 4-dc pc, sc, 5-loop puff, sc, 2-hdc cl, sc, 4-tr bo, sc, bo, sc"},
    ),
)  # fmt: skip

LOOPED = (
    Panel(
        name="third loops", shows=LOOPS, multiple=(1, 0), setup=("hdc across",),
        repeat=("hdc in 3rd loop across",), counts={3: (3, 3), 7: (7, 7)},
        written_out={2: "hdc, hdc, hdc"},
    ),
    Panel(
        name="back and front loops by turns", shows=LOOPS, multiple=(2, 1),
        repeat=("(sc blo, sc flo) across, sc", "sc, (sc flo, sc blo) across"),
        counts={5: (5, 5), 9: (9, 9)}, written_out={1: "sc, sc, sc, sc, sc"},
    ),
    Panel(
        name="spikes", shows=LOOPS, multiple=(4, 1), setup=("sc across", "sc across"),
        repeat=("(3 sc, sc 2 rows below) across, sc", "sc across"),
        counts={5: (5, 5, 5, 5), 9: (9, 9, 9, 9)}, written_out={3: "sc, sc, sc, sc, sc"},
    ),
    Panel(
        name="spikes of three depths", shows=LOOPS, multiple=(4, 1), setup=("sc across",) * 4,
        repeat=("(sc 2 rows below, sc 3 rows below, sc 4 rows below, sc 3 rows below) across, sc",
                *("sc across",) * 3),
        counts={5: (5,) * 8, 13: (13,) * 8}, written_out={5: "sc, sc, sc, sc, sc"},
    ),
    Panel(
        name="doubles into free front loops", shows=LOOPS, multiple=(2, 1), setup=("sc across",),
        repeat=("sc flo across", "sc, (dc flo 2 rows below, sc) across"),
        counts={5: (5, 5, 5), 9: (9, 9, 9)}, written_out={3: "sc, dc, sc, dc, sc"},
    ),
)  # fmt: skip

A_AND_B = {"A": "sand", "B": "deep green"}
COLOURED = (
    Panel(
        name="stripes", shows=COLOURS, multiple=(1, 0), colours=A_AND_B, carried=False,
        repeat=("with A, sc across", "with A, sc across", "with B, sc across", "with B, sc across"),
        counts={4: (4, 4, 4, 4), 9: (9, 9, 9, 9)}, written_out={1: "sc, sc, sc, sc"},
    ),
    Panel(
        name="checks", shows=COLOURS, multiple=(2, 2), colours=A_AND_B, setup=("with A, sc across",),
        repeat=("with A, 2 sc, (with B, sc, with A, sc) across",
                "(with A, sc, with B, sc) across, with A, 2 sc"),
        counts={6: (6, 6, 6), 10: (10, 10, 10)}, written_out={2: "sc, sc, sc, sc, sc, sc"},
    ),
    Panel(
        name="spikes in another colour", shows=COLOURS, multiple=(4, 1), colours=A_AND_B,
        setup=("with A, sc across", "with A, sc across"),
        repeat=("with B, (3 sc, sc 2 rows below) across, sc", "with B, sc across",
                "with A, (sc, sc 2 rows below, 2 sc) across, sc", "with A, sc across"),
        counts={5: (5,) * 6, 9: (9,) * 6}, written_out={5: "sc, sc, sc, sc, sc"},
    ),
)  # fmt: skip

SIDED = (
    Panel(
        name="bobbles on the wrong side", shows=SIDES, multiple=(2, 1), first_row="WS",
        repeat=("sc, (4-tr bo, sc) across", "sc across"),
        counts={5: (5, 5), 9: (9, 9)}, written_out={1: "sc, 4-tr bo, sc, 4-tr bo, sc"},
    ),
    Panel(
        name="ribs that begin on the wrong side", shows=SIDES, multiple=(5, 2), first_row="WS",
        setup=("dc across",), repeat=("dc, (2 FPdc, 3 BPdc) across, dc", "dc, (3 FPdc, 2 BPdc) across, dc"),
        counts={7: (7, 7, 7), 12: (12, 12, 12)}, written_out={2: "dc, FPdc, FPdc, BPdc, BPdc, BPdc, dc"},
    ),
    Panel(
        name="a repeat of three rows", shows=SIDES, multiple=(4, 1), setup=("dc across",),
        repeat=("(FPdc, 3 dc) across, dc", "dc across", "dc, (2 FPtr 2 rows below, 2 dc) across"),
        counts={5: (5,) * 4, 9: (9,) * 4}, written_out={4: "dc, FPtr, FPtr, dc, dc"},
    ),
)  # fmt: skip

OWN_STITCHES = (
    Panel(
        name="loops of yarn", shows=OWN, multiple=(2, 1), first_row="WS",
        own={"lp": {"words": "loop stitch", "worked": "sc round a finger", "symbol": "cross, eye"}},
        repeat=("(lp, sc) across, sc", "sc across"), counts={5: (5, 5), 9: (9, 9)},
        written_out={1: "lp, sc, lp, sc, sc"},
    ),
    Panel(
        name="posts together", shows=OWN, multiple=(3, 0), setup=("dc across",),
        own={"FPdec": {"words": "front post decrease", "worked": "FPdc round 2 posts together",
                       "symbol": "2 legs, 1 bar, hook right", "uses": 2, "makes": 1, "post": "front"}},
        repeat=("(FPdec, 2 dc in next st) across", "dc across"), counts={6: (6, 6, 6), 9: (9, 9, 9)},
        written_out={2: "FPdec, dc, dc, FPdec, dc, dc"},
    ),
    Panel(
        name="wide fans of one's own", shows=OWN, multiple=(4, 1), setup=("sc across",),
        own={"fan4": {"words": "fan over 3", "worked": "work 4 dc in the second of 3 stitches",
                      "symbol": "4 fan, cap", "uses": 3, "makes": 4, "loops": True},
             "gap": {"words": "gap", "worked": "pass over a stitch", "symbol": "dot", "makes": 0}},
        repeat=("(fan4, sc) across, sc", "(4 hdc, gap) across, hdc"), counts={5: (5, 6, 5), 9: (9, 11, 9)},
        written_out={2: "fan4, sc, sc", 3: "hdc, hdc, hdc, hdc, gap, hdc"},
    ),
)  # fmt: skip

TAPERED = (
    Panel(
        name="narrowed at both edges", shows=TAPERS, multiple=(1, 0), setup=("sc across",), adds=(0, -2, 0),
        repeat=("sc2tog, sc across, sc2tog",), counts={10: (10, 8), 13: (13, 11)},
        written_out={2: "sc2tog, sc, sc, sc, sc, sc, sc, sc2tog"},
    ),
    Panel(
        name="widened at both edges", shows=TAPERS, multiple=(2, 1), setup=("dc across",), adds=(0, 2, 0),
        repeat=("2 dc in next st, dc across, 2 dc in next st", "dc, (FPdc, dc) across"),
        counts={5: (5, 7, 7), 9: (9, 11, 11)}, written_out={2: "dc, dc, dc, dc, dc, dc, dc"},
    ),
    Panel(
        name="one more for the pattern", shows=TAPERS, multiple=(4, 1), adds=(1, 0, -1),
        setup=("2 dc in next st, dc across",),
        repeat=("dc, (2 FPdc, 2 BPdc) across, dc", "dc, (2 FPdc, 2 BPdc) across, dc"),
        closing=("dc across, dc2tog",), counts={9: (10, 10, 10, 9), 13: (14, 14, 14, 13)},
        written_out={1: "dc, dc, dc, dc, dc, dc, dc, dc, dc, dc"},
    ),
    Panel(
        name="a narrowing motif", shows=TAPERS, multiple=9, setup=("9 dc",), adds=(0, -2, 0),
        repeat=("dc2tog, dc across, dc2tog", "FPdc, dc across, FPdc"), counts={9: (9, 7, 7)},
        written_out={2: "dc2tog, dc, dc, dc, dc, dc, dc2tog", 3: "FPdc, dc, dc, dc, dc, dc, FPdc"},
    ),
)  # fmt: skip

IN_UK_TERMS = (
    Panel(
        name="ribs in UK terms", shows=UK, multiple=(4, 2), setup=("htr across",), uk=True,
        repeat=("htr, (2 FPtr, 2 htr) across, htr", "htr, (2 htr, 2 BPtr) across, htr"),
        counts={10: (10, 10, 10), 18: (18, 18, 18)},
        written_out={2: "hdc, FPdc, FPdc, hdc, hdc, FPdc, FPdc, hdc, hdc, hdc"},
    ),
    Panel(
        name="pairs and popcorns in UK terms", shows=UK, multiple=(4, 0), setup=("dc across",), uk=True,
        repeat=("(miss, 2 tr in next st) across", "(3 tr, 5-tr pc) across",
                "(dc2tog, 2 dc in next st, dc) across"),
        counts={8: (8, 8, 8, 8), 12: (12, 12, 12, 12)},
        written_out={2: "sk, dc, dc, sk, dc, dc, sk, dc, dc, sk, dc, dc",
                     3: "dc, dc, dc, 5-dc pc, dc, dc, dc, 5-dc pc"},
    ),
    Panel(
        name="cable in UK terms", shows=UK, multiple=9, setup=("9 dc", "9 dc"), uk=True,
        repeat=("2 dc, (2 FPdtr 2 rows below round posts 4 and 5, dc, "
                "2 FPdtr 2 rows below round posts 1 and 2 in front), 2 dc", "9 dc"),
        counts={9: (9, 9, 9, 9)}, written_out={3: "sc, sc, FPtr, FPtr, sc, FPtr, FPtr, sc, sc"},
    ),
)  # fmt: skip
