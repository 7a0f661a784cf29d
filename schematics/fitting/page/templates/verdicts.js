// Answers in words, size by size.

const WORST_FIRST = [...data.answers].reverse();

function originOf({ origin, held }) {
  const words = data.words.origins[origin];
  return held ? filled(data.words.held, { origin: words, held }) : words;
}

// Where a measurement of one person comes from, who is typical of an age where nothing was measured.
function endOf(value) {
  return value.origin === "age table" ? `${data.words.typical}, ${originOf(value)}` : originOf(value);
}

// The words that are said one after the other, see schematics.checks.rules.sentence.
function chosen(clauses, answer, known) {
  const found = [];
  for (const clause of clauses) {
    const words = clause.find((each) => (each.answer ?? answer) === answer && (each.when === null || worked(each.when, known)));
    if (words !== undefined) found.push(words);
    if (words?.last) break;
  }
  return found;
}

const PRINT = {
  compared: ([first, second]) => compared(first, second, unit, data),
  length: ([cm]) => [plainLength(Math.abs(cm), unit, data)],
  "at least": ([cm]) => [atLeast(cm, unit, data)],
  percent: ([fraction, ...against]) => [percent(fraction, against, false, data)],
  signed: ([fraction, ...against]) => [percent(fraction, against, true, data)],
};

function printed({ kind, of }, known) {
  if (kind === "origin") return [endOf(known.body[of[0].body])];
  return PRINT[kind](of.map((tree) => worked(tree, known)));
}

function sentence(rule, answer, known) {
  if (answer === "unknown") return missing(rule, known);
  const { clauses, printed: figures } = data.reasons[rule.code];
  const words = chosen(clauses, answer, known);
  const text = words.map((each) => each.text).join("");
  const values = { borrowed: borrowed(new Set(words.flatMap(({ uses }) => uses)), known) };
  for (const figure of figures.filter(({ names }) => names.some((name) => text.includes(`{${name}}`)))) {
    const texts = printed(figure, known);
    figure.names.forEach((name, index) => { values[name] = texts[index]; });
  }
  return filled(text, values);
}

function missing(rule, known) {
  const gaps = data.asks[rule.code].filter((body) => !(body in known.body));
  const estimated = data.wearer.estimates.map(({ body }) => body);
  const names = joined(gaps.map((body) => data.names[body]));
  const { one, many, height } = data.words.missing;
  return filled(gaps.length === 1 ? one : many, {
    missing: names[0].toUpperCase() + names.slice(1),
    subject: data.what[rule.code],
    height: gaps.every((body) => estimated.includes(body)) ? height : "",
  });
}

// What of a verdict is from another table.
function borrowed(bodies, known) {
  const lent = {};
  for (const body of Object.keys(data.names).filter((each) => bodies.has(each) && each in known.body)) {
    const value = known.body[body];
    if (value.origin !== "own") (lent[originOf(value)] ??= []).push(data.names[body]);
  }
  const origins = Object.entries(lent).map(([origin, names]) => filled(data.words.lent, { origin, bodies: joined(names) }));
  return origins.length === 0 ? "" : filled(data.words.borrowed, { origins: origins.join("; ") });
}

// ---- what is shown of a size

function line(code, answer, words) {
  const item = document.createElement("li");
  const mark = document.createElement("span");
  const name = document.createElement("a");
  mark.className = "mark";
  mark.setAttribute("aria-hidden", "true");
  name.href = `#check-${code}`;
  item.append(mark, name, " ", document.createElement("span"));
  item.dataset.code = code;
  tell(item, answer, words);
  return item;
}

function tell(item, answer, words) {
  const { mark, word } = data.words.answers[answer];
  item.dataset.answer = answer;
  say(item.children[0], mark);
  say(item.children[1], word);
  say(item.children[2], words);
}

const cards = data.sizes.map((size) => {
  const card = document.createElement("li");
  const [heading, mark, words] = ["h3", "span", "span"].map((name) => document.createElement(name));
  const [told, rest, summary, quiet] = ["ul", "details", "summary", "ul"].map((name) => document.createElement(name));
  mark.className = "mark";
  mark.setAttribute("aria-hidden", "true");
  heading.append(mark, words);
  rest.append(summary, quiet);
  card.append(heading, told, rest);
  card.dataset.size = size.name;
  const pattern = size.pattern.map((each) => line(each.code, each.severity, ""));
  const lines = data.rules.rules.map((rule) => line(rule.code, "unknown", ""));
  element("verdicts").append(card);
  return { size, card, mark, words, told, rest, summary, quiet, pattern, lines };
});

function place(items, list) {
  items.forEach((item, index) => {
    if (list.children[index] !== item) list.insertBefore(item, list.children[index] ?? null);
  });
}

// Judges one size and shows it; returns its verdict and how far it is from right, the less the better.
function judge(shown, known) {
  shown.size.pattern.forEach(({ severity, sentences }, index) => {
    tell(shown.pattern[index], severity, sentences[unit] + data.words.pattern);
  });
  const answers = data.rules.rules.map((rule, index) => {
    const answer = answered(rule, known);
    tell(shown.lines[index], answer, sentence(rule, answer, { ...known, unknown: false }));
    return answer;
  });
  const all = [...shown.size.pattern.map(({ severity }) => severity), ...answers];
  const verdict = WORST_FIRST.find((each) => all.includes(each));
  const worry = (item) => ["stop", "mind"].includes(item.dataset.answer);
  const weight = (item) => WORST_FIRST.indexOf(item.dataset.answer);
  const items = [...shown.pattern, ...shown.lines].sort((one, other) => weight(one) - weight(other));
  place(items.filter(worry), shown.told);
  place(items.filter((item) => !worry(item)), shown.quiet);
  const count = (answer) => answers.filter((each) => each === answer).length;
  const told = ["good", "unknown"].filter(count).map((each) => counted(count(each), data.words.counts[each]));
  say(shown.summary, told.join(", "));
  shown.rest.hidden = told.length === 0;
  shown.card.dataset.verdict = verdict;
  say(shown.mark, data.words.answers[verdict].mark);
  const facts = { ...known.facts, "score.making": shown.size.making, "score.stop": count("stop"), "score.mind": count("mind") };
  return { shown, name: shown.size.name, verdict, unsure: count("unknown") > 0, score: worked(data.score, { ...known, facts }) };
}

// The size with the smallest score, of equal ones the first, is marked; how sure that is, in words.
function advise(judged) {
  const best = judged.reduce((one, other) => (other.score < one.score ? other : one));
  const fits = best.verdict !== "stop";
  for (const each of judged) {
    const words = each === best && fits ? data.words.size_advised : data.words.size;
    say(each.shown.words, filled(words, { size: each.name, verdict: data.words.verdicts[each.verdict] }));
  }
  element("verdicts").dataset.advised = best.name;
  const { summary } = data.words;
  return filled(fits ? (best.unsure ? summary.nearest : summary.advised) : summary.none, { size: best.name });
}
