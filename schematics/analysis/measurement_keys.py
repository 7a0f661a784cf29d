"""What every key of measurements.json means; a test holds this list and the file together."""

from __future__ import annotations

KEYS = {
    "format": "version of this file's form; goes up when a key is renamed, removed or changes its meaning",
    "program": "name and version of the program that wrote the file",
    "spec": "name of the spec file",
    "title": "the design's title",
    "date": "date of the spec, year-month-day, or null",
    "unit": "unit of the spec's bare numbers, `cm` or `in`; lengths in this file are always centimetres",
    "construction": "how the body is built",
    "verdict": "worst severity of all sizes here: `stop`, `mind` or `good`",
    "cautions[].sentence": "a caution to pass on to every maker",
    "cautions[].source": "where the caution comes from",
    "sizes[].name": "the size's name, which is also that of the folder with its drawings",
    "sizes[].verdict": "worst severity among the size's findings",
    "sizes[].wearer.label": "whom the size is for",
    "sizes[].wearer.stage": "`baby`, `child` or `adult`",
    "sizes[].wearer.age_years": "age in years, or null where none is known",
    "sizes[].wearer.body.*.cm": "a body measurement by name: the typical value",
    "sizes[].wearer.body.*.low_cm": "low end of its spread; the same as `cm` for a measured wearer",
    "sizes[].wearer.body.*.high_cm": "high end of its spread",
    "sizes[].wearer.body.*.origin": "`own`, `chart`, `age table` or `estimate`",
    "sizes[].wearer.body.*.source": "the table or rule the value comes from",
    "sizes[].wearer.body.*.borrowed": "true if it comes from another table than the size's own",
    "sizes[].finished[].key": "a finished measurement: its name for programs, the same in every size",
    "sizes[].finished[].name": "its name for people",
    "sizes[].finished[].cm": "its length, to 0.001 cm",
    "sizes[].finished[].cm_printed": "its length as printed, to 0.5 cm",
    "sizes[].finished[].inches_printed": "its length as printed, to 1/4 in, as text such as `16 1/2`",
    "sizes[].finished[].count": "stitches or rows in it, or null",
    "sizes[].finished[].counted": "what the count counts, `sts` or `rows`, or null",
    "sizes[].finished[].fabric": "the fabric it is worked in, or null where it spans several",
    "sizes[].drop_cm": "centre-back length of the body, neck edge to hem",
    "sizes[].opening_angle_degrees": "angle the flat body opens to where it widens, or null if it has none",
    "sizes[].seams[].letter": "letter at both edges on the drawing",
    "sizes[].seams[].places": "how many times the seam is sewn",
    "sizes[].seams[].first.piece": "piece the first edge belongs to",
    "sizes[].seams[].first.edge": "name of the first edge",
    "sizes[].seams[].first.cm": "its length",
    "sizes[].seams[].first.count": "its stitches or row ends",
    "sizes[].seams[].first.counted": "`sts` or `rows`",
    "sizes[].seams[].second.piece": "piece the second edge belongs to",
    "sizes[].seams[].second.edge": "name of the second edge",
    "sizes[].seams[].second.cm": "its length",
    "sizes[].seams[].second.count": "its stitches or row ends",
    "sizes[].seams[].second.counted": "`sts` or `rows`",
    "sizes[].seams[].join.first": "join so many of the first edge ...",
    "sizes[].seams[].join.second": "... to so many of the second, in the simplest numbers that come near",
    "sizes[].seams[].join.longer": "which edge has more, `first` or `second`, or null if neither",
    "sizes[].seams[].join.shares[]": (
        "the exact schedule: how many of the longer edge go to each one of the shorter, in turn; "
        "they add up to the longer edge's count"
    ),
    "sizes[].rings[].name": "`neck` or `arm`",
    "sizes[].rings[].edge_count": "edge stitches the band is worked onto, those picked up along row ends too",
    "sizes[].rings[].edge_cm": "length of that edge at rest",
    "sizes[].rings[].edge_full_cm": "length of that edge at full stretch",
    "sizes[].rings[].band_rows": "rows of ribbing in the band, one to each edge stitch",
    "sizes[].rings[].band_cm": "length of the band at rest",
    "sizes[].rings[].band_full_cm": "length of the band at full stretch",
    "sizes[].rings[].band_depth_cm": "depth of the band",
    "sizes[].rings[].rest_cm": "girth when nothing pulls: the shorter of edge and band",
    "sizes[].rings[].full_cm": "girth at full stretch: the shorter of edge and band",
    "sizes[].arm.edge": "edge the arm bands are worked onto",
    "sizes[].arm.edge_count": "stitches or row ends of the whole edge",
    "sizes[].arm.count": "edge stitches or row ends in one arm run",
    "sizes[].arm.back_count": (
        "edge stitches left free across the back, negative if the runs overlap; of an edge on each side, the "
        "row ends behind the run"
    ),
    "sizes[].arm.right.first": "first marker of the wearer's right run, counted inclusively from the front",
    "sizes[].arm.right.last": "last marker of the right run",
    "sizes[].arm.left.first": "first marker of the left run, counted from the same end",
    "sizes[].arm.left.last": "last marker of the left run",
    "sizes[].increases.start": "stitches before the first increase; `increases` is null if none are",
    "sizes[].increases.sections[]": (
        "stitches at the neck of each section, front edge to front edge: increases lie on the lines between "
        "two; a single section where they are spread along the row"
    ),
    "sizes[].increases.each": "increases in every increase row, or null where they differ or there are none",
    "sizes[].increases.interval": (
        "rows from one increase row to the next, or null where they differ or there are fewer than two"
    ),
    "sizes[].increases.rows[].row": "a row with increases; the first row is 1",
    "sizes[].increases.rows[].increases": "increases in it",
    "sizes[].increases.rows[].before": "stitches before it",
    "sizes[].increases.rows[].after": "stitches after it",
    "sizes[].findings[].code": "what was found; `schematics explain CODE` says more",
    "sizes[].findings[].severity": "`stop`, `mind` or `good`",
    "sizes[].findings[].place": "where on the garment",
    "sizes[].findings[].sentence": "the finding in one sentence",
    "sizes[].findings[].figures.*": (
        "the numbers behind it by name, the ending tells the unit: `_cm`, `_count`, `_rows`, `_radians` or "
        "`_fraction` (0.1 is 10 %); null where a number has no bound"
    ),
}
"""Dotted paths; ``[]`` stands for each element of a list and ``*`` for any name."""
