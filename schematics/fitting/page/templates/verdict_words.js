// What is said of a rule's answer: the sentences that Python wrote, filled in.

function joined(words) {
  return words.length < 2 ? words.join("") : words.slice(0, -1).join(", ") + data.words.and + words[words.length - 1];
}

function originOf({ origin, held }) {
  const words = data.words.origins[origin];
  return held ? filled(data.words.held, { origin: words, held }) : words;
}

// Where a measurement of one person comes from, who is typical of an age where nothing was measured.
function endOf(value) {
  return value.origin === "age table" ? `${data.words.typical}, ${originOf(value)}` : originOf(value);
}

// The words that are said one after the other, see schematics.checks.rules.sentence.
function chosen(clauses, answer, inputs) {
  const result = [];
  for (const clause of clauses) {
    const words = clause.find((each) => (each.answer ?? answer) === answer && (each.when === null || worked(each.when, inputs)));
    if (words !== undefined) result.push(words);
    if (words?.last) break;
  }
  return result;
}

const PRINT = {
  compared: ([first, second], grains) => compared(first, second, unit, data, grains),
  length: ([cm]) => [plainLength(Math.abs(cm), unit, data)],
  "at least": ([cm]) => [atLeast(cm, unit, data)],
  percent: ([fraction, ...against]) => [percent(fraction, against, false, data)],
  signed: ([fraction, ...against]) => [percent(fraction, against, true, data)],
};

function printed({ kind, of, grains }, inputs) {
  if (kind === "origin") return [endOf(inputs.body[of[0].body])];
  return PRINT[kind](of.map((tree) => worked(tree, inputs)), grains);
}

function sentence(rule, answer, inputs) {
  if (answer === "unknown") return missing(rule, inputs);
  const { clauses, printed: figures } = data.reasons[rule.code];
  const words = chosen(clauses, answer, inputs);
  const text = words.map((each) => each.text).join("");
  const values = { borrowed: borrowed(new Set(words.flatMap(({ uses }) => uses)), inputs) };
  for (const figure of figures.filter(({ names }) => names.some((name) => text.includes(`{${name}}`)))) {
    const texts = printed(figure, inputs);
    figure.names.forEach((name, index) => { values[name] = texts[index]; });
  }
  return filled(text, values);
}

function missing(rule, inputs) {
  const gaps = data.asks[rule.code].filter((body) => !(body in inputs.body));
  const estimated = data.wearer.estimates.map(({ body }) => body);
  const names = joined(gaps.map((body) => data.names[body]));
  const { one, many, height } = data.words.missing;
  return filled(gaps.length === 1 ? one : many, {
    missing: sentenceCase(names),
    subject: data.what[rule.code],
    height: gaps.every((body) => estimated.includes(body)) ? height : "",
  });
}

// What of a verdict is from another table.
function borrowed(bodies, inputs) {
  const byOrigin = {};
  for (const body of Object.keys(data.names).filter((each) => bodies.has(each) && each in inputs.body)) {
    const value = inputs.body[body];
    if (value.origin !== "own") (byOrigin[originOf(value)] ??= []).push(data.names[body]);
  }
  const origins = Object.entries(byOrigin).map(([origin, names]) => filled(data.words.borrowed_from, { origin, bodies: joined(names) }));
  return origins.length === 0 ? "" : filled(data.words.borrowed, { origins: origins.join("; ") });
}
