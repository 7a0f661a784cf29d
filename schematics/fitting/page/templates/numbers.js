// Reading what was typed and writing lengths, in cm or inches. Spellings, units, steps and messages are data.

// The words with {name} replaced.
function filled(words, values) {
  return words.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? values[name] : whole));
}

function sentenceCase(words) {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

// A number of NUMBER_PATTERN, see schematics.reading.spellings; NaN for a fraction over nought.
function numberOf(words, { vulgar }) {
  const spelt = (plain, [sign, fraction]) => plain.replace(sign, ` ${fraction}`);
  const plain = Object.entries(vulgar).reduce(spelt, words.replace("⁄", "/").replace(",", ".")).trim();
  const parts = /^(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/.exec(plain);
  if (parts === null) return Number(plain);
  const [whole, over, under] = parts.slice(1).map((each) => Number(each ?? 0));
  return under === 0 ? NaN : (whole * under + over) / under;
}

// What a text says: {value, unit}, the unit its own or the one given; {} for an empty one; else {problem}.
function read(text, unit, data) {
  const { problems } = data.words;
  const { spellings } = data;
  if (text.trim() === "") return {};
  if (/^\s*[-−–]\s*[\d.,]/.test(text)) return { problem: problems.negative };
  const match = new RegExp(spellings.length).exec(text);
  if (match === null) return { problem: problems.not_a_number };
  const unitOf = (word) => {
    const plain = word.toLowerCase().replace(/\.$/, "");
    return Object.hasOwn(spellings.units, plain) ? spellings.units[plain] : undefined;
  };
  const [, alone, word, whole, largeWord, rest, smallWord] = match;
  const named = unitOf(word ?? largeWord ?? unit);
  if (named === undefined && alone !== undefined) return { problem: problems.unit };
  const number = numberOf(alone ?? rest, spellings);
  if (Number.isNaN(number)) return { problem: problems.not_a_number };
  if (alone !== undefined) return { value: number, unit: named };
  const [small, fewer] = spellings.smaller[named] ?? [null, 0];
  if (number >= fewer || (smallWord !== undefined && unitOf(smallWord) !== small)) {
    return { problem: problems.not_a_number };
  }
  return { value: Number(whole) + number / fewer, unit: named };
}

// A body measurement typed into a field: {cm}, {} or {problem}.
function readBody(text, unit, body, data) {
  const { value, unit: named, problem } = read(text, unit, data);
  if (problem !== undefined) return { problem };
  if (value === undefined) return {};
  const { low_cm: low, high_cm: high } = data.bodies[body];
  const cm = value * data.units[named].cm;
  if (cm >= low && cm <= high) return { cm, named };
  const words = slipOf(cm, [low, high], unit, data);
  return { problem: `${sentenceCase(words)}${words.endsWith("?") ? "" : "."}` };
}

// What is said of a length that no body has, see schematics.wearer.plausible.
function slipOf(cm, [low, high], unit, data) {
  const { words, meant, units, figures } = data.asking.slip;
  const value = cm / data.units[unit].cm;
  const number = String(Number(value.toPrecision(figures)));
  const ends = { low: plainLength(low, unit, data), high: plainLength(high, unit, data) };
  const slip = filled(words, { ...ends, number, unit });
  const found = units.find(([, each]) => value * each >= low && value * each <= high);
  return found === undefined ? slip : filled(meant, { slip, number, other: found[0] });
}

// How many of a kind a text counts, and over how much: {count, over_cm}, over what was said beside it where it does not
// say so itself; undefined where it cannot be read.
function countOver(text, unit, kind, data, besideCm) {
  const { gauge, number } = data.spellings;
  const first = new RegExp(`^\\s*${number}`).exec(text)?.[0];
  if (first === undefined) return undefined;
  const alone = numberOf(first, data.spellings);
  if (first.trim() === text.trim()) return { count: alone, over_cm: besideCm ?? data.units[unit].span_cm, bare: true };
  const swatch = new RegExp(gauge, "i");
  const match = swatch.exec(text) ?? swatch.exec(`${first} ${kind}${text.slice(first.length)}`);
  if (match === null) return undefined;
  const [, stitches, rows, width, height] = match;
  const [count, over] = kind === "stitches" ? [stitches, width] : [rows, height ?? width];
  if (count === undefined) return undefined;
  const unitAlone = Object.hasOwn(data.spellings.units, over.trim().toLowerCase().replace(/\.$/, ""));
  const { value, unit: named } = read(unitAlone ? `1 ${over}` : over, unit, data);
  return value > 0 ? { count: numberOf(count, data.spellings), over_cm: value * data.units[named].cm, bare: false } : undefined;
}

// Stitches or rows typed into a field, over a width beside it, the unit's span or a width of their own: the {swatch}
// that was counted, {times} as many to the cm as in the pattern, and the {value} over the span; {} or {problem}. A
// count to a centimetre or an inch was read over more.
function readGauge(text, unit, kind, data, besideCm, usual = data.gauge[kind]) {
  const { problems } = data.words;
  const { loosest, tightest, fewest, most, usual_cm: usualCm, short_cm: shortCm } = data.gauge;
  if (text.trim() === "") return {};
  const { count, over_cm: over, bare } = countOver(text, unit, kind, data, besideCm) ?? {};
  if (!Number.isFinite(count)) return { problem: problems.not_a_count };
  const spans = data.units[unit].span_cm / data.gauge.span_cm;
  const per10 = (count * data.gauge.span_cm) / over;
  const [low, high] = [Math.max(loosest * usual, fewest), Math.min(tightest * usual, most)];
  if (per10 < low - data.hair || per10 > high + data.hair) {
    const spansOver = bare && besideCm !== undefined ? over / data.gauge.span_cm : spans;
    const [least, greatest] = [low, high].map((each) => rounded(each * spansOver, data.units[unit].gauge_step, data));
    return { problem: filled(problems.gauge, { low: least, high: greatest }) };
  }
  const counted = over > shortCm + data.hair ? over : usualCm;
  const swatch = { count: (per10 * counted) / data.gauge.span_cm, over_cm: counted };
  return { swatch, times: per10 / usual, value: per10 * spans, bare };
}

// A length typed into a field that is no measurement of a body: {cm}, {} or {problem}.
function readLength(text, unit, data) {
  const { value, unit: named, problem } = read(text, unit, data);
  if (problem !== undefined) return { problem };
  if (value === undefined) return {};
  return value > 0 ? { cm: value * data.units[named].cm } : { problem: data.words.problems.over };
}

// How far a swatch gives, as schematics.fitting.stretch_text reads it: the {stretch} of stitches and of rows and the
// {pulls}; {} or {problem}.
function readStretch(text, data) {
  if (text.trim() === "") return {};
  const { most, most_pulls: mostPulls, example } = data.stretch;
  const problem = filled(data.words.problems.stretch, { example });
  const match = new RegExp(data.spellings.stretch, "i").exec(text);
  const [, one, way, other, otherWay, pulled] = match ?? [];
  if (match === null || way.toLowerCase() === otherWay.toLowerCase()) return { problem };
  const [first, second] = [one, other].map((each) => numberOf(each, data.spellings) / 100);
  const [stitches, rows] = way.toLowerCase() === "across" ? [first, second] : [second, first];
  const pulls = Number(pulled ?? 1);
  const known = Math.max(stitches, rows) <= most && pulls >= 1 && pulls <= mostPulls;
  return known ? { stretch: { stitches, rows }, pulls } : { problem };
}

// A swatch of another fabric than the body's, as schematics.fitting.gauge_text reads it: what was {counted} of it, each
// as readGauge has it, and how far it gives, as readStretch has it; {} or {problem}.
function readSwatch(text, unit, place, data) {
  if (text.trim() === "") return {};
  const problem = filled(data.words.problems.swatch, { example: data.stretch.example });
  const start = new RegExp(`^(.*?)(${data.spellings.stretch.slice(1)})`, "i").exec(text);
  if (start === null && text.includes("%")) return { problem };
  const [told, pulled] = start === null ? [text, {}] : [start[1], readStretch(start[2], data)];
  if (pulled.problem !== undefined) return pulled;
  const kinds = ["stitches", "rows"].filter((kind) => countOver(told, unit, kind, data)?.bare === false);
  if (kinds.length === 0 && told.trim() !== "") return { problem };
  const span = data.gauge.span_cm;
  const counted = kinds.map((kind) => [kind, readGauge(told, unit, kind, data, undefined, data.fabrics[place][kind].per_cm * span)]);
  const wrong = counted.find(([, each]) => each.problem !== undefined);
  return wrong === undefined ? { counted: Object.fromEntries(counted), ...pulled } : { problem: wrong[1].problem };
}

// A number to a step, halves away from nought, without needless noughts.
function rounded(value, step, data) {
  return String(Number(roundHalfUp(value, step, data).toFixed(4)));
}

function roundHalfUp(value, step, { hair }) {
  return Math.sign(value) * Math.floor(Math.abs(value) / step + 0.5 + hair) * step;
}

// A number of a unit to one of its steps: "52.5 cm", "20 5/8 in".
function written(value, unit, name, data) {
  const { steps } = data.units[unit];
  return digits(roundHalfUp(value, steps[name].step, data), unit, name, data);
}

// What has been rounded already.
function digits(rounded_, unit, name, data) {
  const { in_fractions, steps } = data.units[unit];
  if (!in_fractions) {
    const text = rounded_.toFixed(steps[name].decimals);
    return `${name === "fine" ? text : Number(text)} ${unit}`;
  }
  const parts = Math.round(1 / steps[name].step);
  const total = Math.round(Math.abs(rounded_) * parts);
  const whole = Math.floor(total / parts);
  let [over, under] = [total % parts, parts];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const words = [whole > 0 || over === 0 ? `${whole}` : "", over > 0 ? `${over}/${under}` : ""];
  return `${rounded_ < 0 ? "-" : ""}${words.filter(Boolean).join(" ")} ${unit}`;
}

function plainLength(cm, unit, data, step = "usual") {
  return written(cm / data.units[unit].cm, unit, step, data);
}

// Whether plainLength would print nought.
function isNought(cm, unit, data) {
  return roundHalfUp(cm / data.units[unit].cm, data.units[unit].steps.usual.step, data) === 0;
}

function lessThan(name, unit, data) {
  return filled(data.words.less_than, { length: written(data.units[unit].steps[name].step, unit, name, data) });
}

// As plainLength, but rounded up.
function atLeast(cm, unit, data) {
  const { cm: per, steps } = data.units[unit];
  const { step } = steps.usual;
  return written(Math.ceil(cm / (step * per) - data.hair) * step, unit, "usual", data);
}

// Two lengths, each in its grain, and their gap: finer where they would misstate which is the longer.
function compared(first, second, unit, data, grains = ["usual", "usual"]) {
  const { cm: per, steps } = data.units[unit];
  const sign = (difference, nought) => (Math.abs(difference) <= nought ? 0 : Math.sign(difference));
  const longer = sign(first - second, data.hair);
  for (const names of [grains, ["usual", "usual"], ["fine", "fine"]]) {
    const [one, other] = [first, second].map((cm, index) => roundHalfUp(cm / per, steps[names[index]].step, data));
    if (sign(one - other, data.near) === longer) {
      const [name] = [...names].sort(
        (a, b) => steps[b].decimals - steps[a].decimals || steps[a].step - steps[b].step,
      );
      const lengths = [one, other].map((each, index) => digits(each, unit, names[index], data));
      return [...lengths, digits(Math.abs(one - other), unit, name, data)];
    }
  }
  return [...[first, second].map((cm) => plainLength(cm, unit, data, "fine")), lessThan("fine", unit, data)];
}

// A fraction in percent, told apart from every limit it is held against that it is not at.
function percent(fraction, against, signed, data) {
  const inPercent = (share, { step, decimals }) => {
    const rounded_ = roundHalfUp(share * 100, step, data);
    return `${signed && rounded_ >= 0 ? "+" : ""}${rounded_.toFixed(decimals)} %`;
  };
  const [coarsest] = data.percents;
  if (against.some((limit) => Math.abs(fraction - limit) <= data.hair)) return inPercent(fraction, coarsest);
  let alike;
  for (const how of data.percents) {
    const words = inPercent(fraction, how);
    alike = against.find((limit) => inPercent(limit, how) === words);
    if (alike === undefined) return words;
  }
  return filled(data.words.just_off[Number(fraction > alike)], { limit: inPercent(alike, coarsest) });
}

// A figure with its unit, where it is a number alone: one of it, or several.
function withUnit(text, counted) {
  if (!counted || !/^[\d.,]+$/.test(text)) return text;
  return `${text} ${text === "1" ? counted.replace(/s$/, "") : counted}`;
}

// What was typed, written in another unit: exact enough to read, the value behind it is kept as it was.
function converted(value, from, to, data) {
  return rounded((value * data.units[from].cm) / data.units[to].cm, data.units[to].typed_step, data);
}
