// How sure it is that rules hold: see schematics.checks.rules.sureness. What is in doubt is worked out on columns:
// as measured, then every error one standard deviation up, then every error one down.

// Everything that may be off, in the order of the errors.
function doubtsOf(body, fabrics, data) {
  const ofFabrics = fabrics.flatMap(({ errors }, place) => (
    Object.entries(errors).map(([error, sd]) => ({ place, error, sd }))
  ));
  const measured = Object.keys(data.names).filter((name) => body[name]?.sd > 0);
  return [...ofFabrics, ...measured.map((name) => ({ body: name, sd: body[name].sd }))];
}

// The column of one error, which moves something by its standard deviation.
function columnOf(doubts, index, usual) {
  const column = new Array(1 + 2 * doubts.length).fill(usual);
  column[1 + index] += doubts[index].sd;
  column[1 + doubts.length + index] -= doubts[index].sd;
  return column;
}

function variedLengths(doubts, fabrics) {
  return lengthsOf(fabrics, (place, error) => (
    columnOf(doubts, doubts.findIndex((each) => each.place === place && each.error === error), 1)
  ));
}

// Facts in columns; where one cannot be measured because something is off it stays as it is.
function variedFacts(size, lengths) {
  const facts = factsOf(size, lengths);
  const steady = (column) => column.map((each) => (Number.isNaN(each) ? column[0] : each));
  return Object.fromEntries(Object.entries(facts).map(([name, fact]) => (
    [name, Array.isArray(fact) ? steady(fact) : fact]
  )));
}

// The measurements in columns: an estimate follows what it is estimated from.
function variedBody(doubts, inputs, data) {
  const ends = (cm) => ({ low: cm, typical: cm, high: cm });
  const sum = (one, other) => across((a, b) => a + b, [one, other]);
  const off = (name) => {
    const index = doubts.findIndex((each) => each.body === name);
    return index < 0 ? 0 : columnOf(doubts, index, 0);
  };
  const known = {};
  const moved = {};
  for (const [name, value] of Object.entries(inputs.body)) {
    if (value.origin !== "estimate") [known[name], moved[name]] = [value, ends(sum(value.typical, off(name)))];
  }
  for (const { body: name, ways } of data.wearer.estimates) {
    const value = inputs.body[name];
    if (value?.origin !== "estimate") continue;
    const tree = ["first", ...ways.map((way) => way.value)];
    const before = worked(tree, { ...inputs, body: known });
    const after = worked(tree, { ...inputs, body: moved });
    const followed = Number.isNaN(before) ? value.typical : across((cm) => (value.typical * cm) / before, [after]);
    [known[name], moved[name]] = [value, ends(sum(followed, off(name)))];
  }
  return moved;
}

// The event that a margin is over nought.
function marginEvent(column, count, data) {
  if (!Array.isArray(column)) return overNought(column, new Array(count).fill(0), data);
  const slopes = column.slice(1, 1 + count).map((up, place) => (up - column[1 + count + place]) / 2);
  return overNought(column[0], slopes, data);
}

function truthEvent(truth, margins, data) {
  if (!Array.isArray(truth)) return margins[truth];
  const [word, ...parts] = truth;
  return (word === "and" ? allOf : anyOf)(parts.map((each) => truthEvent(each, margins, data)), data);
}

// The deviates of the one comparison that decides a truth most often.
function decidingOf(truth, events) {
  if (!Array.isArray(truth)) return events[truth].deviates;
  const [word, ...parts] = truth;
  return (word === "and" ? Math.min : Math.max)(...parts.map((each) => decidingOf(each, events)));
}

// What is in doubt of a wearer and of fabrics: the errors, and both in columns.
function inDoubt(inputs, fabrics, data) {
  const doubts = doubtsOf(inputs.body, fabrics, data);
  return { doubts, fabrics, own: lengthsOf(fabrics), lengths: variedLengths(doubts, fabrics), body: variedBody(doubts, inputs, data) };
}

// How sure every rule is, by its code, on one size: the event that it holds, and its chance.
function surenessOf(size, inputs, { doubts, lengths, body }, data) {
  const facts = variedFacts(size, lengths);
  const varied = { ...inputs, body, facts, unknown: false, made: new Map() };
  const { margins, fails } = data.chances;
  const events = margins.map((tree) => marginEvent(worked(tree, varied), doubts.length, data));
  return Object.fromEntries(Object.entries(fails).map(([code, truth]) => {
    const holds = otherwise(truthEvent(truth, events, data));
    return [code, { ...holds, chance: below(holds.deviates), fails: below(decidingOf(truth, events)) }];
  }));
}
