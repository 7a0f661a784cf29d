// A whole wearer from what was measured, in cm by body measurement, and an age or NaN: see
// schematics.fitting.completion.

// What trees of a wearer are worked out from.
function inputsOf(body, age, data) {
  const terms = { ...data.wearer.terms, ...data.rules.terms };
  return { body, age_years: age, terms, hair: data.hair, end: "typical" };
}

// The first way to an estimate that comes to a number, and that number; undefined where none does.
function firstWay(ways, inputs) {
  return ways.map((way) => ({ ...way, cm: worked(way.value, inputs) })).find(({ cm }) => !Number.isNaN(cm));
}

// Each measurement gets its ends, all alike, where it comes from, and by how much it may be off by itself. What the
// age table has is taken at an end of its spread, and known to lie there, where one is named; an estimate may there be
// off by as much as of the typical.
function completed(own, age, data, end) {
  const { wearer } = data;
  const usual = end === undefined ? undefined : completed(own, age, data).body;
  const body = {};
  const person = (cm) => ({ low: cm, typical: cm, high: cm });
  for (const [name, table] of Object.entries(wearer.by_age)) {
    const found = readAtAge(table, age);
    if (found === undefined || (wearer.not_with_own_height.includes(name) && "height" in own)) continue;
    const sd = end === undefined ? (found.high - found.low) / table.spread_sds : 0;
    body[name] = { ...person(found[end ?? "typical"]), origin: "age table", held: heldAt(table, age), sd };
  }
  for (const [name, cm] of Object.entries(own)) {
    body[name] = { ...person(cm), origin: "own", sd: wearer.own_sd_cm };
  }
  const inputs = inputsOf(body, age, data);
  inputs.adult = Number(worked(wearer.adult, { ...inputs, unknown: false }));
  for (const { body: name, ways } of wearer.estimates) {
    if (name in body) continue;
    const found = firstWay(ways, inputs);
    if (found === undefined) continue;
    body[name] = { ...person(found.cm), origin: "estimate", sd: usual?.[name].sd ?? found.sd * Math.abs(found.cm) };
  }
  return inputs;
}
