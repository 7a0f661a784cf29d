// A size as it comes out at a maker's gauge: see schematics.fitting.page.size_trees.

// The fabrics as a maker works them, see schematics.fitting.gauge. Her gauge has, for stitches and for rows, how many
// times the pattern's it is and the swatch that she counted; undefined where she did not. Her swatch is of the fabric
// in that place, as a rule the body's, which the others follow; {alone} they are the pattern's.
function fabricsAt(gauge, data, { place = data.fabrics.findIndex(({ body }) => body), alone = false } = {}) {
  return data.fabrics.map((pattern, at) => {
    const fabric = { ...pattern, errors: { ...pattern.errors } };
    if (alone && at !== place) return fabric;
    for (const [counted, { times, swatch }] of Object.entries(gauge)) {
      const { count, over_cm: overCm, per_cm: perCm } = pattern[counted];
      const own = at === place ? swatch : { count, over_cm: overCm / times };
      fabric[counted] = { ...pattern[counted], ...own, per_cm: perCm * times };
      if (at === place) fabric.errors[counted] = data.gauge.reading_count / own.count;
    }
    return fabric;
  });
}

// The same with swatches of others: {place} and {entry}, see readSwatch. What she did not count of one is the pattern's.
function swatchedAs(swatches, fabrics, data) {
  return swatches.reduce((all, { place, entry }) => {
    const own = { ...data.fabrics[place], errors: { ...data.fabrics[place].errors } };
    const counted = Object.entries(entry.counted ?? {});
    for (const [kind, { times, swatch }] of counted) {
      own[kind] = { ...own[kind], ...swatch, per_cm: own[kind].per_cm * times };
      own.errors[kind] = data.gauge.reading_count / swatch.count;
    }
    return pulledAs(entry, counted.length > 0 ? all.map((each, at) => (at === place ? own : each)) : all, data, place);
  }, fabrics);
}

// The same with the stretch that she measured on a swatch of the fabric in a place, as a rule the body's, if she did.
function pulledAs({ stretch, pulls }, fabrics, data, place = data.fabrics.findIndex(({ body }) => body)) {
  if (stretch === undefined) return fabrics;
  const error = worked(data.stretch.error, { facts: { pulls } });
  return fabrics.map((fabric, at) => {
    if (at !== place) return fabric;
    const pulled = { ...fabric, errors: { ...fabric.errors } };
    for (const counted of ["stitches", "rows"]) {
      pulled[counted] = { ...fabric[counted], stretch: stretch[counted] };
      pulled.errors[fabric[counted].stretch_error] = error;
    }
    return pulled;
  });
}

// What a stitch and a row of every fabric come to in cm, at rest and at full stretch, by the names of the facts:
// each of them so many times, as `off` says of an error of the fabric in a place.
function lengthsOf(fabrics, off = () => 1) {
  const times = (one, other) => across((a, b) => a * b, [one, other]);
  const facts = {};
  fabrics.forEach((fabric, place) => {
    for (const counted of ["stitches", "rows"]) {
      const { per_cm: perCm, stretch, length_errors: lengths, stretch_error: own } = fabric[counted];
      const cm = lengths.map((error) => off(place, error)).reduce(times, 1 / perCm);
      facts[`${place}.${counted}`] = cm;
      facts[`${place}.${counted}.full`] = times(cm, across((part) => 1 + stretch * part, [off(place, own)]));
    }
  });
  return facts;
}

// The facts of a size where a stitch and a row come to that: numbers, or columns of them.
function factsOf(size, lengths) {
  const facts = { ...lengths, ...pickedRows(size, lengths) };
  const inputs = { facts, terms: size.terms, made: new Map() };
  return Object.fromEntries(Object.entries(size.facts).map(([name, tree]) => [name, worked(tree, inputs)]));
}

// The rows of ribbing onto stitches picked up along row ends: as many as the gauge asks for, whatever is in doubt of it.
function pickedRows({ own_counts: { edges } = { edges: {} } }, lengths) {
  const usual = Object.fromEntries(Object.entries(lengths).map(([name, cm]) => [name, Array.isArray(cm) ? cm[0] : cm]));
  return Object.fromEntries(Object.entries(edges).map(([name, tree]) => [name, worked(tree, { facts: usual })]));
}
