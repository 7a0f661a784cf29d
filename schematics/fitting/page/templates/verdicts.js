// Answers in words, size by size.

const WORST_FIRST = [...data.answers].reverse();

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
  const [reported, rest, summary, quiet] = ["ul", "details", "summary", "ul"].map((name) => document.createElement(name));
  mark.className = "mark";
  mark.setAttribute("aria-hidden", "true");
  heading.append(mark, words);
  rest.append(summary, quiet);
  card.append(heading, reported, rest);
  card.dataset.size = size.name;
  const pattern = size.pattern.map((each) => line(each.code, each.severity, ""));
  const lines = data.rules.rules.map((rule) => line(rule.code, "unknown", ""));
  element("verdicts").append(card);
  return { size, card, mark, words, reported, rest, summary, quiet, pattern, lines };
});

function place(items, list) {
  items.forEach((item, index) => {
    if (list.children[index] !== item) list.insertBefore(item, list.children[index] ?? null);
  });
}

// A rule's answer on one size, and what is said of it: what is good, but not surely so, is to be minded.
function ruledOn(rule, sure, inputs, doubt) {
  const measured = answered(rule, inputs);
  const known = { ...inputs, unknown: false };
  const words = sentence(rule, measured, known);
  if (measured === "unknown") return { answer: measured, words };
  const unsure = measured === "good" && sure.chance < data.chances.sure_fraction;
  const told = toldOf(words, measured, certaintyOf(rule, sure, measured, known, doubt));
  return { answer: unsure ? "mind" : measured, words: told };
}

// Judges one size and shows it; returns its verdict and how far it is from right, the less the better.
function judge(shown, inputs, doubt) {
  const { pattern, pattern_only: patternOnly } = data.words;
  shown.size.pattern.forEach(({ severity, sentences }, index) => {
    tell(shown.pattern[index], severity, sentences[unit] + (inputs.own_gauge ? patternOnly : pattern));
  });
  const sureness = surenessOf(shown.size, inputs, doubt, data);
  const answers = data.rules.rules.map((rule, index) => {
    const { answer, words } = ruledOn(rule, sureness[rule.code], inputs, doubt);
    tell(shown.lines[index], answer, words);
    return answer;
  });
  const all = [...shown.size.pattern.map(({ severity }) => severity), ...answers];
  const verdict = WORST_FIRST.find((each) => all.includes(each));
  const worry = (item) => ["stop", "mind"].includes(item.dataset.answer);
  const weight = (item) => WORST_FIRST.indexOf(item.dataset.answer);
  const items = [...shown.pattern, ...shown.lines].sort((one, other) => weight(one) - weight(other));
  place(items.filter(worry), shown.reported);
  place(items.filter((item) => !worry(item)), shown.quiet);
  const count = (answer) => answers.filter((each) => each === answer).length;
  const counts = ["good", "unknown"].filter(count).map((each) => counted(count(each), data.words.counts[each]));
  say(shown.summary, counts.join(", "));
  shown.rest.hidden = counts.length === 0;
  shown.card.dataset.verdict = verdict;
  say(shown.mark, data.words.answers[verdict].mark);
  const facts = { ...inputs.facts, "score.making": shown.size.making, "score.stop": count("stop"), "score.mind": count("mind") };
  return { shown, name: shown.size.name, verdict, gaps: count("unknown") > 0, score: worked(data.score, { ...inputs, facts }) };
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
  return filled(fits ? (best.gaps ? summary.nearest : summary.advised) : summary.none, { size: best.name });
}
