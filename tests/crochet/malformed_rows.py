"""Rows that cannot be read, each with the column that is wrong and what a designer is told there."""

_AS_IN = "'hdc, (2 FPdc, 2 hdc) across, hdc'"
_TRADE = (
    "those of the trade are listed in the guide to specs, "
    "and one of your own is defined under the fabric's 'stitches'"
)
_WITHOUT_TURN = (
    "a reverse stitch goes from left to right without a turn, and the rows of a chart are turned; "
    "leave that row out of the chart, and tell where it is worked under the pattern's 'notes', such as 'Edge "
    "the hem with 1 row of reverse single crochet'"
)

ROWS: list[tuple[str, int, str]] = [
    # stitches
    ("dc, (2 whirl) across", 8, f"there is no stitch 'whirl'; {_TRADE}"),
    ("dc, (2 FPdcc) across", 8, "there is no stitch 'FPdcc' in US terms; did you mean 'FPdc'?"),
    ("rsc across", 1, _WITHOUT_TURN),
    ("sc, rev sc", 5, _WITHOUT_TURN),
    ("sc, reverse single crochet across", 5, _WITHOUT_TURN),
    ("fsc, sc across", 1, f"there is no stitch 'fsc'; {_TRADE}"),
    ("sc, 2 ldc", 7, f"there is no stitch 'ldc'; {_TRADE}"),
    ("sc, sc1tog", 5, "expected a number from 2 to 9 before 'tog', got 1"),
    ("FPdc4tog, dc across", 1, "expected 2 or 3 before 'tog', got 4"),
    ("BPdcc2tog, dc across", 1, "there is no stitch 'BPdcc2tog' in US terms; did you mean 'BPdc2tog'?"),
    ("sc, 5dc-bo", 5, "there is no stitch '5dc-bo' in US terms; did you mean '5-dc bo'?"),
    ("sc, 5-dc-bo", 5, "there is no stitch '5-dc-bo' in US terms; did you mean '5-dc bo'?"),
    ("sc, tr2", 5, "a count goes before its stitch, as in '2 tr'"),
    ("htr across", 1, "there is no stitch 'htr' in US terms; did you mean 'hdc'?"),
    ("2 front post double crochet, dc across", 3,
     "there is no stitch 'front post double crochet' in US terms; did you mean 'FPdc'?"),
    ("dc, 5-dc bobble", 5, "there is no stitch '5-dc bobble' in US terms; did you mean '5-dc bo'?"),
    ("dc, 10-dc pc", 5, "expected a number from 2 to 9 before '-dc pc', got 10"),
    ("5-sc pc across", 1, f"there is no stitch '5-sc pc'; {_TRADE}"),
    ("sc, 5 dc bobble", 10, "a stitch of several legs is written with a hyphen, as in '5-dc bo' or '5-dc "
     "pc'"),
    ("inc, sc across", 1,
     "an increase is written out: its stitch with '2' before it and 'in next st' after it"),
    ("sc across, dec", 12, "a decrease is written out: its stitch with '2tog' at its end"),
    ("sc across, turn", 12, "a piece is turned after each row; leave 'turn' out"),
    # counts, commas, brackets
    ("FPdc 2, dc across", 6, "expected a comma; a count goes before its stitch, as in '2 dc'"),
    ("1000 dc, dc across", 1, "expected 1 to 999 stitches, got 1000"),
    ("99999999999999 dc", 1, "expected 1 to 999 stitches, got 999999999999..."),
    ("sc, 3.5 dc", 5, "expected a whole number, got '3.5'"),
    ("(dc, sc) x 2.5", 12, "expected a whole number, got '2.5'"),
    ("2 dc × 3, dc across", 6,
     "'x' goes after a bracket, as in '(2 dc, ch) x 3'; a count before its stitch"),
    ("3 × dc", 3, "a count goes before its stitch without a sign, as in '2 dc'; 'x' goes after a bracket"),
    ("0 dc, dc across", 1, "expected 1 to 999 stitches, got 0"),
    ("dc x 2, dc across", 4, "'x' goes after a bracket, as in '(2 dc, ch) x 3'; a count before its stitch"),
    ("dc (FPdc, dc) across", 4, "expected a comma between two stitches"),
    ("dc sc across", 4, "expected a comma between two stitches"),
    ("dc between, sc", 4, "'between' has no meaning after a stitch; expected a comma"),
    ("dc,, dc across", 4, "a stitch is missing before ','; write one such as '2 dc', or delete the comma"),
    ("dc across,", 11, "a stitch is missing at the end; write one such as '2 dc', or delete the comma"),
    ("dc, () across", 6, "a stitch is missing before ')'; write one such as '2 dc', or delete the comma"),
    ("dc, *2 dc, ch*", 5, "put what repeats in '( )', and 'across' or 'x 3' after it"),
    ("[dc, sc] across", 1, "brackets in a row are '(' and ')'"),
    ("dc; sc across", 3, "between parts of a row stands ','"),
    ("dc & sc across", 4, f"'&' has no meaning in a row; expected one such as {_AS_IN}"),
    ("dc, (2 FPdc, 2 BPdc, dc", 5, "the bracket opened here is not closed; put ')' after what repeats"),
    ("2 FPdc) across", 7, "this bracket closes none; delete it, or put '(' before what repeats"),
    ("(2 FPdc, 2 BPdc), dc", 17, "expected 'x' and a number, or 'across', after the bracket"),
    ("2 (FPdc, dc), dc across", 1, "the number goes after the bracket, as in '(2 dc, ch) x 2'"),
    ("(dc, sc) x 0, dc across", 12, "expected 1 to 999 times, got 0"),
    ("(((((dc) x 1) x 1) x 1) x 1) across", 5, "brackets are nested more than 4 deep; write some of it out"),
    ("sc, (999 dc) x 3, dc across", 5, "expected at most 2000 stitches in a row, got 2998"),
    # across
    ("across dc", 1, f"'across' goes after what repeats, as in {_AS_IN}"),
    ("dc, 4 FPdc across", 5,
     "put what repeats in brackets: '(4 FPdc) across'; without them it is one stitch"),
    ("dc, ((dc) across) x 2", 11, "'across' inside a bracket; only a part that stands in none is worked "
     "across"),
    ("(dc, 2 sc in next st across) x 2", 22,
     "'across' inside a bracket; only a part that stands in none is worked across"),
    # loops, rows below, surface
    ("FPdc blo across", 6, "'blo' does not go with FPdc, which is worked round a post"),
    ("ch flo, dc across", 4, "'flo' does not go with ch, which is worked into no stitch"),
    ("blo dc across", 1, "'blo' goes after its stitch, as in 'dc blo'"),
    ("dc blo only across", 8, "'blo' and 'flo' say 'only' already; leave it out"),
    ("sc 31 rows below, dc across", 4, "expected 1 to 30 rows below, got 31"),
    ("sc below across", 4, "expected how many rows, as in '2 rows below'"),
    ("dc 2 rows, dc across", 4, "expected 'rows below' after the number"),
    ("dc2tog 2 rows below, dc across", 8, "dc2tog is worked into the row below only"),
    ("hdc in 3rd loop 2 rows below across", 17,
     "the 3rd loop is that of a stitch of the row below; leave the rows below out"),
    ("4 sl st blo, surface sc2tog", 14, "sc2tog is not worked on the surface; a stitch into one stitch is"),
    # several in one, spaces
    ("3 FPdc in next st, dc", 1, "FPdc is not worked into one stitch or space"),
    ("(dc, surface tr) in next st", 6, "surface tr is not worked into one stitch or space"),
    ("ch 3 in next st, dc", 1, "nothing holds the chains 'in next st'; put a stitch with them, or leave it "
     "out"),
    ("(2 dc, (ch, dc) in same st) in next st", 1,
     "what is worked into one stitch or space holds no crossing and no other such bracket"),
    ("2 dc in ch-0 sp", 6, "expected 1 to 999 chains, got 0"),
    ("2 dc in ch 2 sp", 6,
     "after 'in' expected 'next st', 'same st', 'ch-2 sp' or '3rd loop'; 'st 2' in a crossing"),
    ("dc in each st across", 4, "a stitch in each is said by a count, as in '2 dc', or by 'across'"),
    # crossings
    ("FPtr round post 2, dc", 1,
     "which stitch is meant is counted inside a bracket: put the whole crossing in '( )'"),
    ("(FPtr in st 2, FPtr in st 1 behind), dc", 7, "FPtr goes 'round post', not 'in st'"),
    ("(dc round post 2, dc in st 1 behind)", 5, "dc goes 'in st', not 'round post'"),
    ("FPdc round the post across", 6,
     "a post stitch goes round the next post unsaid; in a crossing say which: 'round post 2'"),
    ("(FPtr round, FPtr round post 1)", 7,
     "a post stitch goes round the next post unsaid; in a crossing say which: 'round post 2'"),
    ("sc, (sk, dc, dc in st 1 behind)", 14,
     "stitch 1 of the crossing is skipped, which counts it as used, and worked into here, so that "
     "stitch 3 is left over; leave the skip out and say where each stitch goes, as in "
     "'(dc in st 2, dc in st 1 behind)'"),
    ("(2 FPtr round post 3, 2 FPtr round posts 1 and 2 behind)", 9,
     "expected 2 places for 2 stitches, got 1"),
    ("(FPtr round post 2, FPtr round post 1)", 21,
     "it goes back past stitches already worked; say 'in front' or 'behind' after it"),
    ("sc, (2 FPtr 2 rows below round posts 2 and 1), sc", 6,
     "it goes back past stitches already worked; say 'in front' or 'behind' after it"),
    ("(FPtr round post 2, FPtr round post 2 behind)", 1,
     "stitch 2 of the crossing is taken twice; expected each once"),
    ("sc, (FPtr round post 5, sc, FPtr round post 1 behind)", 6,
     "the crossing is over 3 stitches, so expected 1 to 3, got 5"),
    ("(FPtr round posts 2 to, dc)", 23, "expected the number of a stitch, counted from the bracket's first"),
    ("dc, FPtr in front", 10,
     "'in front' goes after the posts or stitches that are taken, as in 'round post 1 in front'"),
    ("(FPtr round post 2, (dc, sc) x 2, FPtr round post 1 behind)", 1,
     "a crossing holds stitches only; take the bracket inside it apart"),
    ("sc, (dc in st 2, dc)", 5,
     "stitch 2 of the crossing is worked into twice and stitch 1 not at all; say 'in st' and its number "
     "after each"),
    ("(dc2tog in st 2, dc in st 1 behind)", 9, "dc2tog takes no place in a crossing; a stitch into one "
     "stitch does"),
]  # fmt: skip

IN_COLOURS: list[tuple[str, int, str]] = [
    ("sc across", 1, "the row does not say its colour; begin it as in 'with A, sc across'"),
    ("with C, sc across", 1, "there is no colour 'C'; those of the chart are A, B; name it under the "
     "chart's 'colours'"),
    ("with, sc across", 1, "'with' takes the letter of a colour, as in 'with A'"),
    ("with A sc across", 8, "expected a comma after the colour"),
    ("B, sc across", 1, "a colour is named as in 'with B'"),
    ("with A", 1, "a colour alone is no row; write its stitches after it"),
    ("with A, (sc, with B, sc) across", 9,
     "a bracket that changes colour begins with its first: put 'with ...' after '('"),
]  # fmt: skip

IN_UK_TERMS: list[tuple[str, int, str]] = [
    ("2 hdc, dc across", 3, "there is no stitch 'hdc' in UK terms; did you mean 'htr'?"),
    ("dc, FPtr blo", 10, "'blo' does not go with FPtr, which is worked round a post"),
    ("rdc across", 1, _WITHOUT_TURN),
    ("edc, dc", 1, f"there is no stitch 'edc'; {_TRADE}"),
    ("skip, dc across", 1, "there is no stitch 'skip' in UK terms; did you mean 'miss'?"),
]
