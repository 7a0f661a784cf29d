"""What every key of every JSON the commands print means; a test holds these and the commands together.

Dotted paths; ``[]`` stands for each element of a list and ``*`` for any name. A list may be empty, and what
holds keys that are listed here may be null where it is not known or does not apply. The end of a name tells
the unit: ``_cm``, ``_g``, ``_m``, ``_years``.
"""

from __future__ import annotations

from collections.abc import Mapping

from schematics.checks.certainty import TELLING
from schematics.checks.wording import percent
from schematics.garment.printed_lengths import NARROW_WORDS, step_in_words
from schematics.units import Grain, ShortGrain, Unit

Keys = Mapping[str, str]


def under(path: str, *groups: Keys) -> dict[str, str]:
    """The keys below a path."""
    return {f"{path}.{key}": words for keys in groups for key, words in keys.items()}


A_COLOUR, UNWEIGHED = "a colour, or null where there is only one", "fabrics whose swatches were not weighed"
WORST = "worst severity among its findings"
_DATE, _FIGURE_KEY = "date of the spec, year-month-day, or null", "the figure's name for programs"
_WITH_MARGIN = "with the margin, or the give or take where that is more"
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
UNFINISHED = {
    "guessed[].key": "key of the spec whose figures are guessed, not measured",
    "guessed[].what": "what is guessed",
    "missing[].key": "key of the spec that the written pattern needs and the spec lacks",
    "missing[].what": "what is missing",
    "missing[].place": "the part of the pattern that lacks it",
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
CERTAINTY = {
    "margin_cm": "by how much it holds, negative where it does not; in the tighter of several comparisons",
    "sd_cm": "standard deviation of that, as swatches, stretch, the maker's hand and the body may be off",
    "holds_fraction": "the chance that it holds, 1 is certain",
    "sentence": "the same in one sentence",
    "measure": "what to measure to be surer",
}
DOUBTS = {
    "doubts[].name": "what may be off: a body measurement, or a fabric and what of it was measured",
    "doubts[].share_fraction": (
        f"its share of the variance, the largest first; shares under {percent(TELLING)} are left out"
    ),
}
SURE = {
    "sure": "how sure it is; null where it rests on counts alone or something is not known, else",
    **under("sure", CERTAINTY, DOUBTS),
}
QUESTION = {
    "measurement": "a measurement of the wearer that hardly any body has; it is taken as given",
    "sentence": "what is asked about it",
}
_COARSE, _NARROW = (
    {unit: step_in_words(unit, grain) for unit in Unit} for grain in (Grain.COARSE, ShortGrain.NARROW)
)
FINISHED_IN_FULL = {
    "key": "a finished measurement: its name for programs, the same in every size",
    "name": "its name for people",
    "cm": "its length, to 0.001 cm",
    "cm_printed": f"its length as printed, to {_COARSE[Unit.CM]}, {NARROW_WORDS} to {_NARROW[Unit.CM]}",
    "inches_printed": f"its length as printed, to {_COARSE[Unit.IN]}, or those to {_NARROW[Unit.IN]}, as "
    "text such as '16 1/2'",
    "count": "stitches or rows in it, or null",
    "counted": "what the count counts, 'sts' or 'rows', or null",
    "fabric": "the fabric it is worked in, or null where it spans several",
}
FINISHED = {key: FINISHED_IN_FULL[key] for key in ("key", "name", "cm", "count")}
EDGE = {
    "piece": "piece the edge belongs to",
    "edge": "name of the edge",
    "cm": "its length",
    "count": "its stitches or row ends",
    "counted": "'sts' or 'rows'",
}
RING = {
    "name": "'neck' or 'arm'",
    "edge_count": "edge stitches the band is worked onto, those picked up along row ends too",
    "edge_cm": "length of that edge at rest",
    "edge_full_cm": "length of that edge at full stretch",
    "band_rows": "rows of ribbing in the band, one to each edge stitch",
    "band_cm": "length of the band at rest",
    "band_full_cm": "length of the band at full stretch",
    "band_depth_cm": "depth of the band",
    "rest_cm": "girth when nothing pulls: the shorter of edge and band",
    "full_cm": "girth at full stretch: the shorter of edge and band",
}
MEASUREMENTS = {
    **HEAD,
    "date": _DATE,
    "unit": "unit of the spec's bare numbers, 'cm' or 'in'; lengths here are always centimetres",
    "construction": "how the body is built",
    "verdict": "worst severity of all sizes here: 'stop', 'mind' or 'good'",
    **CAUTIONS,
    **UNFINISHED,
    "sizes[].name": "the size's name, which is also that of the folder with its drawings",
    "sizes[].verdict": "worst severity among the size's findings",
    **under("sizes[].wearer", WEARER),
    **under("sizes[].questions[]", QUESTION),
    **under("sizes[].finished[]", FINISHED_IN_FULL),
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
    **under("sizes[].rings[]", RING),
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
    **under("sizes[].findings[]", FINDING, SURE),
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
    "date": _DATE,
    "terms": "whose stitch names: 'US' or 'UK'",
    "sizes[]": "the names of the sizes",
    "stops[]": "the sizes that a check stops",
    **CAUTIONS,
    **SECTIONS,
}
PATTERN = {
    "format": HEAD["format"],
    "title": HEAD["title"],
    "terms": FIGURES["terms"],
    "sizes[]": FIGURES["sizes[]"],
    **SECTIONS,
}
"""Of the pattern as its maker gets it; a row of instructions is a sentence."""

REPORT = {"format": HEAD["format"], "program": HEAD["program"], "title": "what is reported", **SECTIONS}
STEP = {
    "size": "the size's name",
    "section": "the heading a figure stands under",
    "key": _FIGURE_KEY,
    "figure": "its name for people",
    "arithmetic": "how it is worked out, in numbers",
    "result": "what that comes to, to 0.001",
    "unit": "the unit of the result",
    "printed": "as a pattern prints it, empty where none does",
    "swatch": "the fabric whose swatch is used, empty where it is none or several",
    "source": "the key of its count in the spec, or what the arithmetic does",
}
WORKINGS = {
    **HEAD,
    **under("steps[]", STEP),
}
YARN_COLOUR = {
    "colour": A_COLOUR,
    "net_g": "what the size takes of it",
    "error_g": "give or take",
    "buy_g": _WITH_MARGIN,
    "buy_m": "the same in metres",
    "balls": "the same in whole balls",
    "without_joins_and_tails": "true if the grams leave them out",
}
YARN_PART = {
    "part": "a part in that colour",
    "quantity": "how many there are",
    "fabric": "the fabric's name",
    "stitches": "the stitches of all rows of all of them",
    "counted": "false if their rows cannot be counted, and as many stitches are taken as fill the area",
    "g": "what all of them take",
}
YARN_STASH = {
    "colour": "a colour at hand, or null where there is only one",
    "verdict": "'enough', 'only without the margin' or 'not enough'",
    "have_g": "what is at hand",
    "left_g": "what is over; negative is short",
}
COUNT_CHANGED = {
    "before": "the count in the spec",
    "after": "the count to work",
}
EFFECT = {
    "key": "a length that changes: its name for programs",
    "name": "its name for people",
    "change_cm": "by how much",
}
SEVERITY_CHANGE = {
    "code": "a check that changes its severity",
    "place": "where on the garment",
    "before": "its severity in the size as it stands",
    "after": "its severity with the changes",
}
YARN_NEED = {
    "net_g": "what it takes; null where a swatch was not weighed, as all amounts",
    "error_g": "give or take: by what the swatches and the maker's hand may be off",
    "buy_g": _WITH_MARGIN,
    "unweighed[]": UNWEIGHED,
    **under("colours[]", YARN_COLOUR),
    **under("colours[].parts[]", YARN_PART),
    "colours[].threads[].name": "thread in a join, or in tails",
    "colours[].threads[].m": "its length in metres",
}
STASH = {
    **under("stash[]", YARN_STASH),
    "shorter.changes[].count": "a count to change for the stash to do; 'shorter' is null if none",
    **under("shorter.changes[]", COUNT_CHANGED),
    "shorter.number": "what make --change knows it by",
    **under("shorter.effects[]", EFFECT),
    **under("shorter.checks[]", SEVERITY_CHANGE),
    "shorter.shorter_cm": "how much shorter the body comes out",
    "shorter.buy_g": "what the size then takes, with the margin",
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
    **under("sizes[]", YARN_NEED, STASH),
}
CORRECTION = {
    "section": "the heading a figure is printed under",
    "key": _FIGURE_KEY,
    "figure": "its name for people",
    "unit": "its unit, or null",
    "old": "as the old version prints it, null where it has none",
    "new": "as the new version prints it, null where it has none",
}
ERRATUM = {
    "page": "the page of the old version on A4, null where there is none",
    "section": "the heading that the line stands below",
    "place": "the line's label or how it begins; of an added one that of the line before it, null if none",
    "sizes[]": "the sizes it is for, none if all of the old version",
    "what": "'read', 'add', 'delete' or 'renumber'",
    "old": "what the old version reads, or null",
    "new": "what is to be read, or null",
}
VERSIONS = {
    "format": HEAD["format"],
    "program": HEAD["program"],
    "old": "name of the old spec file",
    "new": "name of the new spec file",
}
SIZES_CHANGED = {
    "added[]": "sizes the old version does not have",
    "removed[]": "sizes the new version does not have",
}
COMPARE = {
    **VERSIONS,
    "terms": "whose stitch names are used, 'US' or 'UK'",
    **under("errata[]", ERRATUM),
    **SIZES_CHANGED,
}
COMPARE_FIGURES = {
    **VERSIONS,
    **under("all_sizes[]", CORRECTION),
    "sizes[].name": "the size's name",
    **under("sizes[].corrections[]", CORRECTION),
    **SIZES_CHANGED,
    **CAUTIONS,
}
MISS = {
    "size": "the size of a length that is off by more than its tolerance",
    "key": "the length's name for programs",
    "cm": "the length",
    "meant_cm": "the length meant",
    "tolerance_cm": "how far off it may be",
    "by_hand": "true if the spec itself gives its count",
    "because": "the single rule that is the reason, or null",
    "without_it_cm": "the length without that rule",
    "choice": "what to write into the spec to have it so, or null",
}
GRADED_LENGTH = {
    "key": "a count of the spec, or a length without one",
    "count": "the count, or null",
    "cm": "the finished length, or null",
    "meant_cm": "the length meant, or null",
    "tolerance_cm": "how far off it may be, or null",
    "missed": "true if it is off by more",
    "by_hand": "true if the spec itself gives the count",
}
GRADE = {
    "title": HEAD["title"],
    "cost": "what the counts cost, null where all were given, as the next two",
    "gap": "how much less other counts might cost at most",
    "proven": "true if no other counts cost less",
    "increase_every": "rows from one increase row to the next, the same in all sizes, or null",
    **under("misses[]", MISS),
    "sizes[].name": "the size's name",
    "sizes[].verdict": WORST,
    **under("sizes[].lengths[]", GRADED_LENGTH),
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
    "body.*.sd_cm": "an estimate's own error, one standard deviation; 0 for what is no estimate",
    "body.*.printed_inches": "as the chart prints it, where it does in inches, or null",
}

KEYS: Mapping[str, Keys] = {
    "check": MEASUREMENTS,
    "figures": FIGURES,
    "pattern": PATTERN,
    "workings": WORKINGS,
    "sensitivity": REPORT,
    "yarn": YARN,
    "compare": COMPARE,
    "compare --figures": COMPARE_FIGURES,
    "grade": GRADE,
    "wearers": WEARERS,
    "wearers ROW": WEARER_ROW,
    "explain": REPORT,
}
"""The keys of the JSON of each command; where it prints designs, those of each in ``designs[]``."""
