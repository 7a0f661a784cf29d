// The sizes as they are shown: the advised one first with its reasons, its neighbours, and others folded away.

function made(name, words, className) {
  const node = document.createElement(name);
  if (words !== undefined) node.textContent = words;
  if (className !== undefined) node.className = className;
  return node;
}

function lineOf({ code, answer, words }) {
  const item = made("li");
  const { mark, word } = data.words.answers[answer];
  const sign = made("span", mark, "mark");
  sign.setAttribute("aria-hidden", "true");
  item.append(sign, made("strong", word), " ", made("span", words));
  item.dataset.code = code;
  item.dataset.answer = answer;
  return item;
}

function listOf(lines) {
  const list = made("ul");
  list.append(...lines.map(lineOf));
  return list;
}

// What is not good of a size, the worst first.
function worriesOf({ lines }) {
  return lines.filter(({ answer }) => answer === "stop" || answer === "mind").sort(byWeight);
}

function byWeight(one, other) {
  return WORST_FIRST.indexOf(one.answer) - WORST_FIRST.indexOf(other.answer);
}

// How a size fits in a few words; and whether it is hers at all.
function fitsWords({ verdict, lines }) {
  return data.words.verdicts[howOf(lines)] ?? data.words.verdicts[verdict];
}

function verdictWords(one) {
  return one.notHers ? data.words.not_hers : fitsWords(one);
}

function notHersWords(one) {
  return one.notHers ? [made("p", filled(data.words.not_hers_advised, { size: one.name }))] : [];
}

// Where something is amiss as it is measured, that it need not stay so.
function mendWords(one) {
  return !one.notHers && ["mind", "stop"].includes(howOf(one.lines)) ? [made("p", data.words.mend)] : [];
}

// A size: its verdict, why in short, what is to be minded, and all the rest to be opened.
function cardOf(one, heading, opened) {
  const card = made("li");
  card.dataset.size = one.name;
  card.dataset.verdict = one.verdict;
  const title = made("h3");
  const sign = made("span", data.words.answers[one.verdict].mark, "mark");
  sign.setAttribute("aria-hidden", "true");
  title.append(sign, made("span", heading));
  const reasons = opened ? reasonList(one) : made("p", shortly(one), "reasons");
  const worries = worriesOf(one);
  const rest = one.lines.filter((each) => !worries.includes(each)).sort(byWeight);
  const folded = made("details");
  const all = opened ? rest : [...worries, ...rest];
  folded.append(made("summary", filled(data.words.all, { size: one.name })), listOf(all));
  folded.hidden = all.length === 0;
  card.append(title, ...(opened ? [...notHersWords(one), reasons, listOf(worries), ...mendWords(one)] : [reasons]), folded);
  return card;
}

function reasonList(one) {
  const list = made("ul");
  list.append(...reasonsOf(one).map(({ words, answer }) => {
    const item = made("li");
    const sign = made("span", data.words.answers[answer].mark, "mark");
    sign.setAttribute("aria-hidden", "true");
    item.dataset.answer = answer;
    item.append(sign, sentenceCase(words));
    return item;
  }));
  return list;
}

function sentenceOf(reasons) {
  const words = joined(reasons.map((each) => each.words));
  return words === "" ? "" : `${sentenceCase(words)}.`;
}

// What is amiss of a size, and why it is as it is.
function shortly(one) {
  return [amissWords(one), sentenceOf(reasonsOf(one))].filter((each) => each !== "").join(" ");
}

// Every size in its place, as far as it has one.
function showSizes(judged, best) {
  const { words } = data;
  const at = judged.indexOf(best);
  const heading = (one, beside) => filled(words.beside[beside], { size: one.name }) + `: ${verdictWords(one)}`;
  const advised = filled(words.size_advised, { size: best.name, verdict: fitsWords(best) });
  const places = { verdicts: [cardOf(best, best.notHers ? heading(best, "other") : advised, true)], others: [], "not-hers": [] };
  judged.forEach((one, place) => {
    if (one === best) return;
    const beside = place === at - 1 ? "smaller" : place === at + 1 ? "larger" : "other";
    if (one.notHers) {
      places["not-hers"].push(cardOf(one, heading(one, "other"), false));
    } else {
      places[beside === "other" ? "others" : "verdicts"].push(cardOf(one, heading(one, beside), false));
    }
  });
  element("verdicts").replaceChildren(...places.verdicts);
  for (const name of ["others", "not-hers"]) {
    element(name).hidden = places[name].length === 0;
    element(name).querySelector("ul").replaceChildren(...places[name]);
  }
  element("verdicts").dataset.advised = best.name;
  say(element("why-heading"), filled(words.why, { size: best.name }));
}
