// The rules of fit, worked out from the data that Python wrote: see schematics.wearer.expr for the trees.
// There is no limit, no measurement and no formula in here.

const SIGNS = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  min: (a, b) => Math.min(a, b),
  max: (a, b) => Math.max(a, b),
  and: (a, b) => a && b,
  or: (a, b) => a || b,
  first: (a, b) => (Number.isNaN(a) ? b : a),
};

// The value of a tree; what is unknown is NaN, and a comparison with it is what inputs.unknown says.
function worked(node, inputs) {
  if (typeof node === "number") return node;
  if (Array.isArray(node)) return applied(node[0], node.slice(1), inputs);
  if ("body" in node) return inputs.body[node.body]?.[node.end ?? inputs.end] ?? NaN;
  if ("fact" in node) return inputs.facts[node.fact] ?? NaN;
  if ("wearer" in node) return inputs[node.wearer];
  if ("term" in node) return worked(inputs.terms[node.term], inputs);
  throw new TypeError(`no node: ${JSON.stringify(node)}`);
}

function applied(word, parts, inputs) {
  if (word === "table") return tabled(parts, inputs);
  const values = parts.map((part) => worked(part, inputs));
  if (word === "<" || word === "<=") {
    const [low, high] = values;
    if (Number.isNaN(low) || Number.isNaN(high)) return inputs.unknown;
    return word === "<" ? high > low + inputs.hair : low <= high + inputs.hair;
  }
  if (!(word in SIGNS)) throw new TypeError(`no sign: ${word}`);
  return values.reduce(SIGNS[word]);
}

function tabled([at, points], inputs) {
  const x = worked(at, inputs);
  const xs = points.map(([each]) => worked(each, inputs));
  const y = (index) => worked(points[index][1], inputs);
  const last = points.length - 1;
  if (Number.isNaN(x)) return NaN;
  if (x <= xs[0]) return y(0);
  if (x >= xs[last]) return y(last);
  const index = xs.findIndex((each, number) => each <= x && x < xs[number + 1]);
  return ((y(index + 1) - y(index)) / (xs[index + 1] - xs[index])) * (x - xs[index]) + y(index);
}

// A rule's answer by its name in data.answers: sure where doubt would not change it, else unknown.
function answered(rule, inputs) {
  const truth = (tree, unknown) => tree !== null && worked(tree, { ...inputs, unknown });
  if (truth(rule.stop, false)) return "stop";
  const minded = truth(rule.mind, false);
  if (truth(rule.stop, true) || (!minded && truth(rule.mind, true))) return "unknown";
  return minded ? "mind" : "good";
}

// A whole wearer from what was measured, in cm by body measurement, and an age or NaN: see
// schematics.fitting.completion. Each measurement gets its ends, all alike, and where it comes from.
function completed(own, age, data) {
  const { wearer } = data;
  const body = {};
  const person = (cm) => ({ low: cm, typical: cm, high: cm });
  const row = wearer.ages.indexOf(age);
  if (row >= 0) {
    for (const [name, { typical, held }] of Object.entries(wearer.by_age)) {
      if (typical[row] === null || (wearer.not_with_own_height.includes(name) && "height" in own)) continue;
      body[name] = { ...person(typical[row]), origin: "age table", held: held[row] };
    }
  }
  for (const [name, cm] of Object.entries(own)) {
    body[name] = { ...person(cm), origin: "own" };
  }
  const inputs = {
    body,
    age_years: age,
    terms: { ...wearer.terms, ...data.rules.terms },
    hair: data.hair,
    end: "typical",
  };
  inputs.adult = Number(worked(wearer.adult, { ...inputs, unknown: false }));
  for (const { body: name, value } of wearer.estimates) {
    if (name in body) continue;
    const cm = worked(value, inputs);
    if (!Number.isNaN(cm)) body[name] = { ...person(cm), origin: "estimate" };
  }
  return inputs;
}

// The facts of a size at the pattern's gauge, or at the place of the table of other gauges.
function factsOf(size, place, data) {
  if (place === null) return size.facts;
  const at = (fact) => {
    if (fact === null || typeof fact === "number") return fact;
    if ("stitches" in fact) return fact.stitches[place.stitches];
    if ("rows" in fact) return fact.rows[place.rows];
    return fact.both[place.stitches][place.rows];
  };
  const facts = data.gauge.other.sizes[size.name];
  return Object.fromEntries(Object.entries(facts).map(([name, fact]) => [name, at(fact)]));
}
