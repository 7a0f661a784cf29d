"""What every key of every JSON the commands print means; a test holds these and the commands together.

Dotted paths; ``[]`` stands for each element of a list and ``*`` for any name. A list may be empty, and what
holds keys that are listed here may be null where it is not known or does not apply. The end of a name tells
the unit: ``_cm``, ``_g``, ``_m``, ``_years``.
"""

from __future__ import annotations

from collections.abc import Mapping

Keys = Mapping[str, str]


def under(path: str, *groups: Keys) -> dict[str, str]:
    """The keys below a path."""
    return {f"{path}.{key}": words for keys in groups for key, words in keys.items()}


HEAD = {
    "format": "version of this form; goes up when a key is renamed, removed or changes its meaning",
    "program": "name and version of the program that wrote it",
    "spec": "name of the spec file",
    "title": "the design's title",
}
CAUTIONS = {
    "cautions[].sentence": "a caution to pass on to every maker",
    "cautions[].source": "where the caution comes from",
}
VALUE = {
    "cm": "a body measurement by name: the typical value",
    "low_cm": "low end of its spread; the same as 'cm' for a measured wearer",
    "high_cm": "high end of its spread",
    "origin": "'own', 'chart', 'age table' or 'estimate'",
    "source": "the table or rule the value comes from",
    "borrowed": "true if it comes from another table than the size's own",
}
WEARER = {
    "label": "whom it is",
    "stage": "'baby', 'child' or 'adult'",
    "age_years": "age in years, or null where none is known",
    **under("body.*", VALUE),
}
FINDING = {
    "code": "what was found; schematics explain CODE says more",
    "severity": "'stop', 'mind' or 'good'",
    "place": "where on the garment",
    "sentence": "the finding in one sentence",
}
FINISHED = {
    "key": "a finished measurement: its name for programs, the same in every size",
    "name": "its name for people",
    "cm": "its length, to 0.001 cm",
    "count": "stitches or rows in it, or null",
}
EDGE = {
    "piece": "piece the edge belongs to",
    "edge": "name of the edge",
    "cm": "its length",
    "count": "its stitches or row ends",
    "counted": "'sts' or 'rows'",
}
MEASUREMENTS = {
    **HEAD,
    "date": "date of the spec, year-month-day, or null",
    "unit": "unit of the spec's bare numbers, 'cm' or 'in'; lengths here are always centimetres",
    "construction": "how the body is built",
    "verdict": "worst severity of all sizes here: 'stop', 'mind' or 'good'",
    **CAUTIONS,
    "sizes[].name": "the size's name, which is also that of the folder with its drawings",
    "sizes[].verdict": "worst severity among the size's findings",
    **under("sizes[].wearer", WEARER),
    **under("sizes[].finished[]", FINISHED),
    "sizes[].finished[].cm_printed": "its length as printed, to 0.5 cm",
    "sizes[].finished[].inches_printed": "its length as printed, to 1/4 in, as text such as '16 1/2'",
    "sizes[].finished[].counted": "what the count counts, 'sts' or 'rows', or null",
    "sizes[].finished[].fabric": "the fabric it is worked in, or null where it spans several",
    "sizes[].drop_cm": "centre-back length of the body, neck edge to hem",
    "sizes[].opening_angle_degrees": "angle the flat body opens to where it widens, or null if it has none",
    "sizes[].seams[].letter": "letter at both edges on the drawing",
    "sizes[].seams[].places": "how many times the seam is sewn",
    **under("sizes[].seams[].first", EDGE),
    **under("sizes[].seams[].second", EDGE),
    "sizes[].seams[].join.first": "join so many of the first edge ...",
    "sizes[].seams[].join.second": "... to so many of the second, in the simplest numbers that come near",
    "sizes[].seams[].join.longer": "which edge has more, 'first' or 'second', or null if neither",
    "sizes[].seams[].join.shares[]": (
        "the exact schedule: how many of the longer edge go to each one of the shorter, in turn; "
        "they add up to the longer edge's count"
    ),
    "sizes[].rings[].name": "'neck' or 'arm'",
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
    "sizes[].increases.start": "stitches before the first increase; 'increases' is null if none are",
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
    **under("sizes[].findings[]", FINDING),
    "sizes[].findings[].figures.*": (
        "the numbers behind it by name, the ending tells the unit: '_cm', '_count', '_rows', '_radians' or "
        "'_fraction' (0.1 is 10 %); null where a number has no bound"
    ),
}
"""Those of measurements.json."""

SECTIONS = {
    "sections[].key": "a part of the document: its name for programs, empty where it has none",
    "sections[].heading": "its heading",
    "sections[].sentences[]": "its sentences",
    "sections[].figures[].key": "a figure: its name for programs",
    "sections[].figures[].name": "its name for people",
    "sections[].figures[].unit": "its unit, or null",
    "sections[].figures[].values[]": "its exact value in each size, in the order of 'sizes', or null",
    "sections[].figures[].printed[]": "the same as printed",
    "sections[].figures[].size_string": "the same as a pattern prints it, '42 (46, 50)'",
    "sections[].tables[].caption": "what a table shows, where its heading does not say",
    "sections[].tables[].header[]": "the names of its columns",
    "sections[].tables[].rows[][]": "its cells, row by row: numbers where they are exact, else as printed",
}
FIGURES = {
    **HEAD,
    "date": "date of the spec, year-month-day, or null",
    "terms": "whose stitch names: 'US' or 'UK'",
    "sizes[]": "the names of the sizes",
    "stops[]": "the sizes that a check stops",
    **CAUTIONS,
    **SECTIONS,
}
REPORT = {"format": HEAD["format"], "program": HEAD["program"], "title": "what is reported", **SECTIONS}
WORKINGS = {
    **HEAD,
    "steps[].size": "the size's name",
    "steps[].section": "the heading a figure stands under",
    "steps[].key": "the figure's name for programs",
    "steps[].figure": "its name for people",
    "steps[].arithmetic": "how it is worked out, in numbers",
    "steps[].result": "what that comes to, to 0.001",
    "steps[].unit": "the unit of the result",
    "steps[].printed": "as a pattern prints it, empty where none does",
    "steps[].swatch": "the fabric whose swatch is used, empty where it is none or several",
    "steps[].source": "the key of its count in the spec, or what the arithmetic does",
}
YARN = {
    **HEAD,
    "yarn": "the yarn's name in the spec",
    "margin": "what is bought beyond what is worked, as a fraction",
    "stash_g.*": "yarn at hand by colour, without a name where there is one; null if none",
    "largest_size": "the largest size the stash does for, or null",
    "notes[]": "how the amounts are counted, and how sure they are",
    **CAUTIONS,
    "sizes[].name": "the size's name",
    "sizes[].net_g": "what it takes; null where a swatch was not weighed, as all amounts",
    "sizes[].error_g": "give or take",
    "sizes[].buy_g": "with the margin",
    "sizes[].unweighed[]": "fabrics whose swatches were not weighed",
    "sizes[].colours[].colour": "a colour, or null where there is only one",
    "sizes[].colours[].net_g": "what the size takes of it",
    "sizes[].colours[].error_g": "give or take",
    "sizes[].colours[].buy_g": "with the margin",
    "sizes[].colours[].buy_m": "the same in metres",
    "sizes[].colours[].balls": "the same in whole balls",
    "sizes[].colours[].without_joins_and_tails": "true if the grams leave them out",
    "sizes[].colours[].parts[].part": "a part in that colour",
    "sizes[].colours[].parts[].quantity": "how many there are",
    "sizes[].colours[].parts[].fabric": "the fabric's name",
    "sizes[].colours[].parts[].area_cm2": "the area of all of them",
    "sizes[].colours[].parts[].g": "what all of them take",
    "sizes[].colours[].threads[].name": "thread in a join, or in tails",
    "sizes[].colours[].threads[].m": "its length in metres",
    "sizes[].stash[].colour": "a colour at hand, or null where there is only one",
    "sizes[].stash[].verdict": "'enough', 'only without the margin' or 'not enough'",
    "sizes[].stash[].have_g": "what is at hand",
    "sizes[].stash[].left_g": "what is over; negative is short",
    "sizes[].shorter.changes[].count": "a count to change for the stash to do; 'shorter' is null if none",
    "sizes[].shorter.changes[].before": "the count in the spec",
    "sizes[].shorter.changes[].after": "the count to work",
    "sizes[].shorter.shorter_cm": "how much shorter the body comes out",
    "sizes[].shorter.buy_g": "what the size then takes, with the margin",
}
GAUGE = {
    "gauge.fabrics[].name": "a fabric whose gauge was given; 'gauge' is null if none was",
    "gauge.fabrics[].stitches": "the maker's stitches to 10 cm",
    "gauge.fabrics[].rows": "the maker's rows to 10 cm",
    "gauge.fabrics[].pattern_stitches": "the pattern's stitches to 10 cm",
    "gauge.fabrics[].pattern_rows": "the pattern's rows to 10 cm",
    "gauge.scaled_alike[]": "fabrics taken to be worked as much tighter or looser",
}
SIZE_FIT = {
    "name": "the size's name",
    "verdict": "worst severity among its findings",
    "points[].code": "the finding that a point is judged by",
    "points[].place": "where on the garment",
    "points[].answer": "'good', 'mind', 'stop' or 'unknown'",
    "points[].garment_cm": "what the garment measures there, null where it is not known",
    "points[].body_cm": "what the body asks for, null where it is not known",
    "points[].ease_cm": "what is to spare; negative is too little",
    **under("findings[]", FINDING),
    **under("finished[]", FINISHED),
}
FIT = {
    **HEAD,
    **CAUTIONS,
    **GAUGE,
    **under("wearer", WEARER),
    "advised": "the size to work",
    "right": "true if nothing stops it or is to be minded",
    "wearable": "true if nothing stops it",
    "could_also_be[]": "sizes that may be the right one, for all that is measured",
    "advice.size": "the size that is changed; 'advice' is null where nothing small helps or need be",
    "advice.right": "true if the changes make it right",
    "advice.changes[].key": "a count to change, by its key in the spec",
    "advice.changes[].before": "the count in the spec",
    "advice.changes[].after": "the count to work",
    "advice.changes[].words": "the change in words",
    "advice.effects[].key": "a length that changes: its name for programs",
    "advice.effects[].name": "its name for people",
    "advice.effects[].change_cm": "by how much",
    **under("advice.findings[]", FINDING),
    **under("sizes[]", SIZE_FIT),
}
INSTEAD = {
    **HEAD,
    **CAUTIONS,
    **GAUGE,
    "instead[].size": "a size of the pattern",
    "instead[].verdict": "its worst severity at the maker's gauge, on the wearer it is meant for",
    "instead[].work": "the size to work instead",
    "instead[].then": "the worst severity of that",
    **under("sizes[]", SIZE_FIT),
}
GROUP = {
    **HEAD,
    **CAUTIONS,
    **GAUGE,
    "counts[].size": "a size of the pattern",
    "counts[].wearers": "how many it is for",
    "counts[].uncertain": "of how many of them another size could be the right one",
    "no_size": "how many no size fits",
    "yarn.colours[].colour": "a colour, or null where there is only one",
    "yarn.colours[].buy_g": "yarn for all of them, with the margin; null where a swatch was not weighed",
    "yarn.unweighed[]": "fabrics whose swatches were not weighed",
    "wearers[].line": "a wearer's line in the file",
    "wearers[].name": "the name given there",
    "wearers[].size": "the size to work, or null where none fits",
    "wearers[].verdict": "worst severity of that size on this wearer",
    "wearers[].stops[]": "codes of the findings that stop it",
    "wearers[].minds[]": "codes of the findings to mind",
    "wearers[].not_checked[]": "codes of what could not be judged",
    "wearers[].could_also_be[]": "sizes that may be the right one, for all that is measured",
    "problems[].line": "a line that could not be read",
    "problems[].sentence": "what is wrong with it",
}
PROGRESS = {
    **HEAD,
    **CAUTIONS,
    "size": "the size's name",
    "piece": "the piece that is worked",
    "rows": "rows worked so far",
    "all_rows": "rows of the whole piece",
    "expected.stitches": "stitches of the last row by the pattern",
    "expected.parted": "true if the work is parted there: stitches and width are of both sides together",
    "expected.share": "stitches worked over all stitches of the piece",
    "expected.width_cm": "width along the last row by the pattern",
    "expected.height_cm": "height up the rows by the pattern",
    "expected.mass_g": "weight by the pattern; null where the swatch was not weighed",
    "measured.width_cm": "width as measured, or null",
    "measured.height_cm": "height as measured, or null",
    "measured.weighed_g": "weight as weighed, or null",
    "outcome.stitches_to_10_cm": "the maker's own gauge; 'outcome' is null where nothing was measured",
    "outcome.rows_to_10_cm": "likewise, rows",
    "outcome.other_fabrics_alike": "true if the other fabrics are taken to be as much tighter or looser",
    "outcome.rows_for_the_patterns_length": "rows the piece needs to come out as long as in the pattern",
    **under("outcome.size", SIZE_FIT),
    "yarn[].colour": "a colour, or null where there is only one",
    "yarn[].rest_g": "yarn still to be worked",
    "yarn[].have_g": "yarn at hand, or null where it was not said",
    "yarn[].lasts": "'yes', 'only just', 'no' or 'unknown'",
}
COVERAGE = {
    **HEAD,
    **CAUTIONS,
    "notes[]": "where the shares come from, and what they leave out",
    "criteria.*[]": "codes of the findings behind 'head', 'hand', 'reach' and 'hang'",
    "ages[].age_years": "an age",
    "ages[].none": "share of the children of that age whom no size suits, 0 to 1",
    "ages[].several": "share whom several sizes suit",
    "ages[].sizes.*.head": "by size: share whom it suits by the head alone",
    "ages[].sizes.*.hand": "by the hand alone",
    "ages[].sizes.*.reach": "by reach alone",
    "ages[].sizes.*.hang": "by hang alone",
    "ages[].sizes.*.all": "by all four, taken as independent",
    "ages[].sizes.*.all_low": "by all four, at least, whatever the correlation",
    "ages[].sizes.*.all_high": "by all four, at most",
}
CORRECTION = {
    "section": "the heading a figure is printed under",
    "key": "the figure's name for programs",
    "figure": "its name for people",
    "unit": "its unit, or null",
    "old": "as the old version prints it, null where it has none",
    "new": "as the new version prints it, null where it has none",
}
COMPARE = {
    "format": HEAD["format"],
    "program": HEAD["program"],
    "old": "name of the old spec file",
    "new": "name of the new spec file",
    **under("all_sizes[]", CORRECTION),
    "sizes[].name": "the size's name",
    **under("sizes[].corrections[]", CORRECTION),
    "added[]": "sizes the old version does not have",
    "removed[]": "sizes the new version does not have",
    **CAUTIONS,
}
GRADE = {
    "title": HEAD["title"],
    "cost": "what the counts cost, null where all were given, as the next two",
    "gap": "how much less other counts might cost at most",
    "proven": "true if no other counts cost less",
    "increase_every": "rows from one increase row to the next, the same in all sizes, or null",
    "misses[].size": "the size of a length that is off by more than its tolerance",
    "misses[].key": "the length's name for programs",
    "misses[].cm": "the length",
    "misses[].meant_cm": "the length meant",
    "misses[].tolerance_cm": "how far off it may be",
    "misses[].by_hand": "true if the spec itself gives its count",
    "misses[].because": "the single rule that is the reason, or null",
    "misses[].without_it_cm": "the length without that rule",
    "misses[].choice": "what to write into the spec to have it so, or null",
    "sizes[].name": "the size's name",
    "sizes[].verdict": "worst severity among its findings",
    "sizes[].lengths[].key": "a count of the spec, or a length without one",
    "sizes[].lengths[].count": "the count, or null",
    "sizes[].lengths[].cm": "the finished length, or null",
    "sizes[].lengths[].meant_cm": "the length meant, or null",
    "sizes[].lengths[].tolerance_cm": "how far off it may be, or null",
    "sizes[].lengths[].missed": "true if it is off by more",
    "sizes[].lengths[].by_hand": "true if the spec itself gives the count",
}
WEARERS = {
    "references[].reference": "a row a size can name",
    "references[].stage": WEARER["stage"],
    "references[].age_years": WEARER["age_years"],
    "references[].chest_girth_cm": "typical girth of the chest",
    "references[].head_girth_cm": "typical girth of the head",
    "references[].centre_back_neck_to_wrist_cm": "typical length from the centre back neck to the wrist",
    "references[].height_cm": "typical height",
}
WEARER_ROW = {
    "reference": "the row",
    **under("body.*", VALUE),
    "body.*.printed_inches": "as the chart prints it, where it does in inches, or null",
}

KEYS: Mapping[str, Keys] = {
    "check": MEASUREMENTS,
    "figures": FIGURES,
    "workings": WORKINGS,
    "sensitivity": REPORT,
    "yarn": YARN,
    "fit": FIT,
    "fit --gauge": INSTEAD,
    "fit --group": GROUP,
    "progress": PROGRESS,
    "coverage": COVERAGE,
    "compare": COMPARE,
    "grade": GRADE,
    "wearers": WEARERS,
    "wearers ROW": WEARER_ROW,
    "explain": REPORT,
}
"""The keys of the JSON of each command; where it prints designs, those of each in ``designs[]``."""
