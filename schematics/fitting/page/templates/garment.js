// A size as it comes out at a maker's gauge: see schematics.fitting.page.size_trees.

// As times the pattern's.
const PATTERNS_GAUGE = { stitches: 1, rows: 1 };

// What a stitch and a row of every fabric come to in cm, at rest and at full stretch, by the names of the facts.
function fabricFacts(gauge, data) {
  const facts = {};
  data.fabrics.forEach((fabric, place) => {
    for (const counted of ["stitches", "rows"]) {
      const { per_cm: perCm, stretch } = fabric[counted];
      const cm = 1 / (perCm * gauge[counted]);
      facts[`${place}.${counted}`] = cm;
      facts[`${place}.${counted}.full`] = cm * (1 + stretch);
    }
  });
  return facts;
}

// The facts of a size in such fabrics, and its finished lengths: numbers, or columns of them.
function factsOf(size, fabrics) {
  const inputs = { facts: fabrics, terms: size.terms, made: new Map() };
  return Object.fromEntries(Object.entries(size.facts).map(([name, tree]) => [name, worked(tree, inputs)]));
}
