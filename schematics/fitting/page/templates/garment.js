// A size as it comes out at a maker's gauge: see schematics.fitting.page.size_trees.

// As times the pattern's.
const PATTERNS_GAUGE = { stitches: 1, rows: 1 };

// What a stitch and a row of every fabric come to in cm, at rest and at full stretch, by the names of the facts:
// each of them so many times, as `off` says of an error of the fabric in a place.
function fabricFacts(gauge, data, off = () => 1) {
  const times = (one, other) => across((a, b) => a * b, [one, other]);
  const facts = {};
  data.fabrics.forEach((fabric, place) => {
    for (const counted of ["stitches", "rows"]) {
      const { per_cm: perCm, stretch, length_errors: lengths, stretch_error: own } = fabric[counted];
      const cm = lengths.map((error) => off(place, error)).reduce(times, 1 / (perCm * gauge[counted]));
      facts[`${place}.${counted}`] = cm;
      facts[`${place}.${counted}.full`] = times(cm, across((part) => 1 + stretch * part, [off(place, own)]));
    }
  });
  return facts;
}

// The facts of a size in such fabrics, and its finished lengths: numbers, or columns of them.
function factsOf(size, fabrics) {
  const inputs = { facts: fabrics, terms: size.terms, made: new Map() };
  return Object.fromEntries(Object.entries(size.facts).map(([name, tree]) => [name, worked(tree, inputs)]));
}
