// What is said of the sizes: answers in words, and which size is advised.

const WORST_FIRST = [...data.answers].reverse();

// A rule's answer on one size, and what is said of it: what is good, but not surely so, is to be minded.
function ruledOn(rule, sure, inputs, doubt) {
  const measured = answered(rule, inputs);
  const known = { ...inputs, unknown: false };
  const words = sentence(rule, measured, known);
  if (measured === "unknown") return { answer: measured, flaws: 0, words };
  const unsure = measured === "good" && sure.chance < data.chances.sure_fraction;
  const told = toldOf(words, measured, certaintyOf(rule, sure, measured, known, doubt));
  const answer = unsure ? "mind" : measured;
  const amiss = chosen([data.reasons[rule.code].amiss], answer, known).map(({ text }) => text).join("");
  return { answer, unsure, flaws: answer === "mind" ? flawsOf(rule, sure, unsure, known) : 0, words: told, amiss };
}

// How many things to mind are to be expected by a rule that is to be minded, see schematics.fitting.flaws.
function flawsOf(rule, sure, unsure, known) {
  return worked(rule.stops_if_it_fails, known) ? data.flaws.stop * sure.fails + Number(!unsure) : sure.fails;
}

// How many are to be expected in all, what is to be minded of how it is made among them.
function flawsIn(lines) {
  const sum = lines.reduce((all, { flaws, weighs, answer }) => all + (flaws ?? Number(weighs && answer === "mind")), 0);
  return Number(sum.toFixed(data.flaws.decimals));
}

// Judges one size: every line that is told of it, its verdict, and how far it is from right, the less the better;
// what is borrowed of her lies within those ends.
function judge(size, inputs, doubt, ends) {
  const sureness = surenessOf(size, inputs, doubt, data);
  const made = makingOf(size, doubt, inputs.own_gauge);
  const ruled = data.rules.rules.map((rule) => ({ code: rule.code, ...ruledOn(rule, sureness[rule.code], inputs, doubt) }));
  const lines = [...made, ...ruled];
  const count = (answer) => ruled.filter((each) => each.answer === answer).length;
  const making = (answer) => made.filter((each) => each.weighs && each.answer === answer).length;
  const flaws = flawsIn(lines);
  const failing = ruled.some(({ answer, unsure }) => answer === "mind" && !unsure);
  const level = flaws > 0 ? 1 + Number(failing || flaws >= data.flaws.too_many) : 0;
  const notHers = isNotHers(size, inputs.facts, ends);
  const counted = { "score.not_hers": Number(notHers), "score.stops": count("stop") + making("stop"), "score.level": level, "score.flaws": flaws };
  const facts = { ...inputs.facts, ...size.meant, ...counted };
  const known = { ...inputs, facts, unknown: false };
  return {
    size,
    name: size.name,
    lines,
    sureness,
    inputs,
    verdict: WORST_FIRST.find((each) => lines.some(({ answer }) => answer === each)),
    gaps: count("unknown") > 0,
    notHers,
    score: worked(data.score, known),
  };
}

function judgeAll(inputs, doubt, lengths, ownGauge, ends) {
  return data.sizes.map((size) => {
    const facts = factsOf(size, lengths);
    return { ...judge(size, { ...inputs, facts, own_gauge: ownGauge }, doubt, ends), lengths };
  });
}

// The size with the smallest score, of equal ones the first.
function bestOf(judged) {
  return judged.reduce((one, other) => (other.score < one.score ? other : one));
}

// Whether nobody would think of a size for her, at whichever of the ends: see schematics.fitting.sizing.
function isNotHers(size, facts, ends) {
  return ends.every((inputs) => worked(data.far_off, { ...inputs, facts: { ...facts, ...size.meant }, unknown: false }));
}

// The names of the sizes that could be the best as well: see schematics.fitting.fitting.
function otherSizes(judged, best, atEnds, judgedAt) {
  const borrowed = Object.values(best.inputs.body).some(({ origin }) => origin === "age table");
  const could = judged.filter(({ score }) => best.gaps && score <= best.score + data.tie).map(({ name }) => name);
  if (borrowed) could.push(...atEnds.map((inputs) => bestOf(judgedAt(inputs)).name));
  const mayBe = ({ notHers, lines }) => !notHers && !lines.some(({ weighs, answer }) => weighs && answer === "stop");
  const places = judged.map((one) => one === best || (mayBe(one) && could.includes(one.name)));
  const between = judged.slice(places.indexOf(true), places.lastIndexOf(true) + 1);
  return between.filter((one) => one !== best && mayBe(one)).map(({ name }) => name);
}

// What is advised in a sentence, see schematics.fitting.advice_words.
function advisedWords({ name, lines, gaps, notHers }) {
  const { summary } = data.words;
  const how = notHers ? "stop" : howOf(lines);
  return filled((gaps ? summary.advised_so_far : summary.advised)[how], { size: name });
}

// What is amiss of it in a few words, or may be, see schematics.fitting.advice_words.
function amissWords(one) {
  const { amiss, made_amiss: made } = data.words.summary;
  const worries = worriesOf(one);
  return [false, true].map((unsure, place) => {
    const told = worries.filter((each) => Boolean(each.unsure) === unsure).map((each) => each.amiss ?? made);
    return told.length === 0 ? "" : sentenceCase(filled(amiss[place], { amiss: joined([...new Set(told)]) }));
  }).filter((each) => each !== "").join(" ");
}

// How a size is by what is found, see schematics.fitting.sizing.HOW.
function howOf(lines) {
  const count = (is) => lines.filter(is).length;
  const facts = {
    "found.stop": count(({ answer }) => answer === "stop"),
    "found.mind": count(({ answer, unsure }) => answer === "mind" && !unsure),
    "found.unsure": count(({ answer, unsure }) => answer === "mind" && unsure),
    "found.flaws": flawsIn(lines),
  };
  const [how] = data.how.find(([, tree]) => worked(tree, { facts, hair: data.hair })) ?? ["right"];
  return how;
}

// Why, in short: what is to spare at hem, wrist and head, as far as it is known: {code, words}.
function reasonsOf({ inputs, lines }) {
  const reasons = data.reason_rules.map((code) => {
    const rule = data.rules.rules.find((each) => each.code === code);
    const known = { ...inputs, unknown: false };
    const [ease, garment, body] = ["ease_cm", "garment_cm", "body_cm"].map((name) => worked(rule.figures[name], known));
    if (!Number.isFinite(ease)) return undefined;
    const [more, less] = data.words.reasons[code];
    const just = plainLength(Math.abs(ease), unit, data) === plainLength(0, unit, data);
    const length = compared(garment, body, unit, data)[2];
    const words = just ? data.words.just[code] : filled(ease > 0 ? more : less, { length });
    return { code, words, ease, answer: lines.find((each) => each.code === code).answer };
  });
  return reasons.filter((each) => each !== undefined);
}
