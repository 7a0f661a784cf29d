"""What the keys of the JSON mean that is about wearers; see `schematics.analysis.json_keys`."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.analysis.json_keys import (
    A_COLOUR,
    CAUTIONS,
    COUNT_CHANGED,
    EFFECT,
    FINDING,
    FINISHED,
    HEAD,
    QUESTION,
    SEVERITY_CHANGE,
    STASH,
    SURE,
    UNWEIGHED,
    WEARER,
    WORST,
    YARN_NEED,
    Keys,
    under,
)

GAUGE = {
    "gauge.fabrics[].name": "a fabric whose gauge was given; 'gauge' is null if none was",
    "gauge.fabrics[].stitches": "the maker's stitches to 10 cm",
    "gauge.fabrics[].rows": "the maker's rows to 10 cm",
    "gauge.fabrics[].pattern_stitches": "the pattern's stitches to 10 cm",
    "gauge.fabrics[].pattern_rows": "the pattern's rows to 10 cm",
    "gauge.not_counted[]": "'main: rows': the pattern's are taken, for no others were counted of that swatch",
    "gauge.scaled_alike[]": "fabrics taken to be worked as much tighter or looser",
}
POINT = {
    "code": "the finding that a point is judged by",
    "place": "where on the garment",
    "answer": "'good', 'mind', 'stop' or 'unknown'",
    "garment_cm": "what the garment measures there, null where it is not known",
    "body_cm": "what the body asks for, null where it is not known",
    "ease_cm": "what is to spare; negative is too little",
}
SIZE_FIT = {
    "name": "the size's name",
    "verdict": WORST,
    **under("points[]", POINT),
    **under("findings[]", FINDING, SURE),
    **under("finished[]", FINISHED),
}
COUNT_CHANGE = {
    "key": "a count to change, by its key in the spec",
    **COUNT_CHANGED,
    "words": "the change in words",
}
CHANGED = {
    **under("changes[]", COUNT_CHANGE),
    **under("effects[]", EFFECT),
    **under("checks[]", SEVERITY_CHANGE),
    **under("findings[]", FINDING, SURE),
}
AGES = {
    "by": "what a child grows out of it by: 'neck', 'arms' or 'hem'",
    "from_years": "the age from which it is right there, null if at none",
    "until_years": "the age until which it is, null if until grown up",
}
COULD_ALSO_BE = {"could_also_be[]": "sizes that may be the right one, for all that is measured"}
GROWTH = {
    "growth[].size": "the size, then one size up, of a child whose age or height is known",
    **under("growth[]", AGES),
}
FIT = {
    **HEAD,
    **CAUTIONS,
    **GAUGE,
    **under("wearer", WEARER),
    **under("questions[]", QUESTION),
    "advised": "the size to work: that in which least is to be expected amiss",
    "right": "true if nothing stops it or is to be minded",
    "wearable": "true if nothing stops it, and it is not so far off that nobody would think of it",
    **COULD_ALSO_BE,
    "suggestions[].number": "what make --change knows it by; none where nothing small helps or need be",
    "suggestions[].size": "the size that is changed",
    "suggestions[].right": "true if the changes make it right",
    **under("suggestions[]", CHANGED),
    **GROWTH,
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
GROUP_WEARER = {
    "line": "a wearer's line in the file",
    "name": "the name given there",
    "size": "the size to work, or null where none fits",
    "verdict": "worst severity of that size on this wearer, 'stop' where none fits",
    "nearest": "where none fits the size that comes nearest, or null",
    "not_hers": "true if even that is so far off that nobody would think of it",
    "stops[]": "codes of the findings that stop it",
    "minds[]": "codes of the findings to mind",
    "not_sure[]": "those of them that are good by what is known, and to be minded because it is not sure",
    "not_sure_chances[]": "in what share of all cases each of those holds; none in groups over 1,000",
    "not_checked[]": "codes of what could not be judged",
    **COULD_ALSO_BE,
    "measure": "the one measurement that would settle most, or null; null in groups over 1,000",
    "measure_for": "what it may change: the size, what is not checked, or the verdict alone; or null",
    "questions[]": "what is asked about measurements that hardly any body has; they are taken as given",
}
GROUP = {
    **HEAD,
    **CAUTIONS,
    **GAUGE,
    "counts[].size": "a size of the pattern",
    "counts[].wearers": "how many it is for",
    "counts[].uncertain": "of how many of them another size could be the right one",
    "no_size": "how many no size fits",
    "yarn.colours[].colour": A_COLOUR,
    "yarn.colours[].buy_g": "yarn for all of them, with the margin; null where a swatch was not weighed",
    "yarn.colours[].sizes[].size": "a size of the pattern",
    "yarn.colours[].sizes[].balls_each": "whole balls for one of it; null where a ball's mass is not known",
    "yarn.colours[].balls": "whole balls for each poncho, over all wearers a size fits; null likewise",
    "yarn.colours[].balls_pooled": "balls for all of them where what is over goes into the next",
    "yarn.colours[].balls_least": "whole balls where each takes the size of the fewest that could be hers",
    "yarn.colours[].balls_most": "and of the most",
    "yarn.unweighed[]": UNWEIGHED,
    **under("wearers[]", GROUP_WEARER),
    "problems[].line": "a line that could not be read",
    "problems[].name": "whose it is; empty where that cannot be read",
    "problems[].sentence": "what is wrong with it",
}
EXPECTED = {
    "stitches": "stitches of the last row by the pattern",
    "parted": "true if the work is parted there: stitches and width are of both sides together",
    "share": "stitches worked over all stitches of the piece",
    "width_cm": "width along the last row by the pattern",
    "height_cm": "height up the rows by the pattern",
    "mass_g": "weight by the pattern; null where the swatch was not weighed",
}
MEASURED = {
    "width_cm": "width as measured, or null",
    "height_cm": "height as measured, or null",
    "weighed_g": "weight as weighed, or null",
}
YARN_LEFT = {
    "colour": A_COLOUR,
    "rest_g": "yarn still to be worked",
    "have_g": "yarn at hand, or null where it was not said",
    "lasts": "'yes', 'only just', 'no' or 'unknown'",
}
PROGRESS = {
    **HEAD,
    **CAUTIONS,
    "size": "the size's name",
    "piece": "the piece that is worked",
    "rows": "rows worked so far",
    "all_rows": "rows of the whole piece",
    **under("expected", EXPECTED),
    **under("measured", MEASURED),
    "outcome.stitches_to_10_cm": "the maker's own gauge; 'outcome' is null where nothing was measured",
    "outcome.rows_to_10_cm": "likewise, rows",
    "outcome.other_fabrics_alike": "true if the other fabrics are taken to be as much tighter or looser",
    "outcome.rows_for_the_patterns_length": "rows the piece needs to come out as long as in the pattern",
    **under("outcome.questions[]", QUESTION),
    **under("outcome.size", SIZE_FIT),
    **under("yarn[]", YARN_LEFT),
}
RESCUE = {
    **HEAD,
    **CAUTIONS,
    "size": "the size that was worked",
    "measured[].key": "a finished measurement that was measured: its name for programs",
    "measured[].name": "its name for people",
    "measured[].cm": "what it measures",
    "measured[].pattern_cm": "what it was to measure",
    "notes[]": "what is in doubt of what was measured, and how what was not is taken",
    "wearer": "whom it is held against",
    "given": "true if that was said; false for the one the size is meant for",
    **under("questions[]", QUESTION),
    "wearable": "true if nothing stops it as it is",
    **under("as_it_is", SIZE_FIT),
    "repairs[].number": "from 1: the repairs, those with the fewest stitches to unpick and work first",
    "repairs[].right": "true if nothing is left to mind",
    "repairs[].mended": "true if so, at least as far as it is measured",
    "repairs[].pieces[]": "the pieces that are not left as they are",
    "repairs[].at_pattern_gauge[]": "those of them that are worked anew at the pattern's gauge",
    "repairs[].unpicked_stitches": "stitches that are ripped out",
    "repairs[].worked_stitches": "stitches that are worked anew",
    "repairs[].steps[]": "what to do in turn",
    **under("repairs[]", CHANGED),
    "fits_sizes[]": "sizes on whose own wearers nothing of it is to be minded",
    "fits_sizes_with_care[]": "sizes on whose wearers nothing of it stops",
    "fits_from_years": "the age from which all of it is right on a child of typical measurements, null if "
    "at none",
    "fits_until_years": "the age until which it is, null if until grown up, or at none",
    **under("fits_ages[]", AGES),
}
MAKE = {
    **HEAD,
    **CAUTIONS,
    **under("wearer", WEARER),
    **under("questions[]", QUESTION),
    "size": "the size of the pattern that it was made from",
    **COULD_ALSO_BE,
    **CHANGED,
    **SIZE_FIT,
    "name": "whom it is for, or that size where nobody is named",
    **GROWTH,
    "counts[].key": "a count, by its key in the spec",
    "counts[].count": "the count to work; a list where several belong together",
    "counts[].pattern_count": "that of the size it was made from, or null",
    "yarn.name": "the maker's own yarn, or the pattern's",
    **under("yarn", YARN_NEED, STASH),
    "folder": "where the files are",
    "open_first": "the file to open first, the pattern",
    "files[]": "every file there, from that folder on",
    "written[]": "those of them that were not as they are now",
}
"""Its length changes and checks are against that size as it stands, in the same fabrics."""

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
    "ages[].sizes.*.unsure.head": "share whom it would suit besides by all four, were it sure by the head",
    "ages[].sizes.*.unsure.hand": "were it sure by the hand",
    "ages[].sizes.*.unsure.reach": "were it sure by reach",
    "ages[].sizes.*.unsure.hang": "were it sure by hang",
    "ages[].sizes.*.all": "by all four, taken as independent",
    "ages[].sizes.*.all_low": "by all four, at least, whatever the correlation",
    "ages[].sizes.*.all_high": "by all four, at most",
    "to_be_sure[].by": "'head', 'hand', 'reach' or 'hang'",
    "to_be_sure[].size": "a size that would suit more children, were it sure by that",
    "to_be_sure[].age_years": "the age at which they are most",
    "to_be_sure[].unsure": "how large a share more of that age, 0 to 1",
    "to_be_sure[].measure": "what to measure to be sure",
}

KEYS: Mapping[str, Keys] = {
    "fit": FIT,
    "fit --gauge": INSTEAD,
    "fit --group": GROUP,
    "progress": PROGRESS,
    "rescue": RESCUE,
    "make": MAKE,
    "coverage": COVERAGE,
}
"""The keys of the JSON of each command."""
