// What is checked of how a size is made, whoever wears it: at her gauge as schematics.checks has it.

// The lines that are not good; those that count in the size's score weigh.
function makingOf(size, doubt, ownGauge) {
  const lengths = doubt.own;
  const { not_at_gauge: notAtGauge } = data.making;
  const told = size.pattern.filter(({ code }) => !(ownGauge && notAtGauge.includes(code)));
  const lines = told.map(({ code, severity, sentences, weighs }) => (
    { code, answer: severity, words: sentences[unit] + (ownGauge ? data.words.at_pattern_gauge : ""), making: true, weighs }
  ));
  const facts = factsOf(size.made, lengths);
  size.made.seams.forEach((edges, number) => {
    const at = (name) => facts[`${number}.${name}`];
    const answer = at("stop") > data.hair ? "stop" : at("mind") > data.hair ? "mind" : "good";
    if (answer === "good") return;
    const certainty = seamCertainty(size, number, answer, doubt);
    const words = toldOf(seamWords(edges, at, answer), answer, certainty);
    lines.push({ code: data.making.seam.code, answer, words, making: true, weighs: true });
  });
  if (size.made.slot && facts["slot.mind"] > data.hair) {
    const words = slotWords(size, facts, factsOf(size, lengths));
    lines.push({ code: data.making.slot.code, answer: "mind", words, making: true, weighs: true });
  }
  if (size.made.opens && facts.opening > data.making.flat.circles[0] + data.hair) lines.push(openingLine(facts.opening));
  return lines;
}

function openingLine(angle) {
  const { flat } = data.making;
  const degrees = (radians) => `${((radians * 180) / Math.PI).toFixed(1)}°`;
  const [one, two] = flat.circles;
  const answer = angle > two + data.hair ? "stop" : "mind";
  const words = filled(flat[answer], { degrees: degrees(angle), over: degrees(angle - one) });
  return { code: flat.code, answer, words, making: true, weighs: true };
}

function seamWords(edges, at, answer) {
  const { seam } = data.making;
  const [first, second] = [at("first"), at("second")];
  const apart = Math.abs(first - second);
  const longest = Math.max(first, second);
  const [{ name: one }, { name: other }] = first <= second ? edges : [...edges].reverse();
  const gap = isNought(apart, unit, data) ? lessThan("usual", unit, data) : plainLength(apart, unit, data);
  const share = percent(apart / longest, seam.against, false, data);
  const length = plainLength(longest, unit, data, "coarse");
  return filled(seam.words, { one, other, length, gap, share, verdict: seam[answer], cure: seamCure(edges, at, apart) });
}

// How sure it is that two edges can be seamed; what is in doubt of a body is not in it.
function seamCertainty(size, number, answer, { doubts, lengths }) {
  const columns = factsOf(size.made, lengths);
  const holds = allOf([0, 1].map((place) => marginEvent(columns[`${number}.margin.${place}`], doubts.length, data)), data);
  const sure = { ...holds, chance: below(holds.deviates) };
  if (!(sure.sd >= data.chances.least_sd_cm)) return undefined;
  return { words: certaintyWords(sure, answer === "mind", plainLength(Math.abs(sure.margin), unit, data)) };
}

// The allowed count that brings one edge nearest to the other, the second edge if that helps.
function seamCure(edges, at, apart) {
  for (const [side, other, { name, words }] of [["second", "first", edges[1]], ["first", "second", edges[0]]]) {
    const [count, length] = [at(`${side}.count`), at(`${side}.length`)];
    if (apart > Math.abs(length - at(other)) + data.hair) {
      const told = `${count} ${name} ${words[Number(count !== 1)]}`;
      return filled(data.making.seam.cure, { counted: told, length: plainLength(length, unit, data, "coarse") });
    }
  }
  return "";
}

function slotWords(size, facts, finished) {
  const { slot } = data.making;
  const [front, back] = [facts["slot.front"], facts["slot.back"]];
  const [width, leaves] = [finished["finished.panel.width"], finished["finished.body.slot"]];
  const top = finished["finished.panel.top"] ?? width;
  const length = (cm, key) => plainLength(cm, unit, data, slot.grains[key]);
  const tapers = size.made.tapered && top !== width;
  return filled(slot.words, {
    panel: filled(slot.panel[tapers ? "tapered" : "plain"], { top: length(top, "panel.top") }),
    gap: plainLength(Math.abs(width - leaves), unit, data),
    slot: length(leaves, "body.slot"),
    share: percent(Math.abs(front - back) / Math.max(front, back), slot.against, false, data),
    side: slot.sides[Number(front <= back)],
    back: length(back, "body.width"),
  });
}
