// Reading what was typed and writing lengths, in cm or inches. Units, steps and messages are data.

const LENGTH = /^(?:(?:(\d{1,9})\s+)?(\d{1,9})\s*\/\s*(\d{1,9})|(\d{1,9}(?:\.\d{0,20})?|\.\d{1,20}))\s*([a-z"″”]*)$/i;
const VULGAR = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8" };

// The words with {name} replaced.
function filled(words, values) {
  return words.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? values[name] : whole));
}

// What a text says: {value, unit}, the unit its own or the one given; {} for an empty one; else {problem}.
function read(text, unit, data) {
  const { problems, unit_words: words } = data.words;
  const plain = text.trim().replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`).replace(/^(\d+),(\d+)/, "$1.$2").trim();
  if (plain === "") return {};
  if (/^[-−–]\s*[\d.]/.test(plain)) return { problem: problems.negative };
  const match = LENGTH.exec(plain);
  if (match === null) return { problem: problems.not_a_number };
  const [, whole, over, under, decimal, word] = match;
  const named = word === "" ? unit : words[word.toLowerCase()];
  if (data.units[named] === undefined) return { problem: problems.unit };
  if (under !== undefined && Number(under) === 0) return { problem: problems.not_a_number };
  const value = decimal === undefined ? (Number(whole ?? 0) * Number(under) + Number(over)) / Number(under) : Number(decimal);
  return { value, unit: named };
}

// A body measurement typed into a field: {cm}, {} or {problem}.
function readBody(text, unit, body, data) {
  const { value, unit: named, problem } = read(text, unit, data);
  if (problem !== undefined) return { problem };
  if (value === undefined) return {};
  const { low_cm: low, high_cm: high } = data.bodies[body];
  const { problems } = data.words;
  const cm = value * data.units[named].cm;
  if (cm >= low && cm <= high) return { cm, named };
  const other = Object.keys(data.units).find((each) => {
    const meant = value * data.units[each].cm;
    return each !== named && data.units[each].typed && meant >= low && meant <= high;
  });
  const values = {
    low: plainLength(low, unit, data),
    high: plainLength(high, unit, data),
    typed: text.trim(),
    other: other && data.units[other].name,
    example: other && `${text.trim()} ${other}`,
  };
  const words = cm < low ? problems.too_small : problems.too_large;
  return { problem: filled(words, values) + (other ? ` ${filled(problems.other_unit, values)}` : "") };
}

// Stitches or rows typed into a field, over the unit's span: {index} in the table, {} or {problem}.
function readGauge(text, unit, gauges, data) {
  const { value, problem } = read(text, unit, data);
  const { problems } = data.words;
  if (problem !== undefined || /[a-z"″”]/i.test(text)) return { problem: problems.not_a_count };
  if (value === undefined) return {};
  const over = gauges.map((each) => (each * data.units[unit].span_cm) / data.gauge.span_cm);
  const step = over.length > 1 ? over[1] - over[0] : over[0];
  if (value < over[0] - step / 2 || value > over[over.length - 1] + step / 2) {
    const [low, high] = [over[0], over[over.length - 1]].map((each) => rounded(each, data.units[unit].gauge_step));
    return { problem: filled(problems.gauge, { low, high }) };
  }
  const distances = over.map((each) => Math.abs(each - value));
  return { index: distances.indexOf(Math.min(...distances)), value };
}

// A number to a step, halves away from nought, without needless noughts.
function rounded(value, step) {
  return String(Number((roundHalfUp(value, step)).toFixed(4)));
}

function roundHalfUp(value, step) {
  return Math.sign(value) * Math.floor(Math.abs(value) / step + 0.5 + 1e-9) * step;
}

// A number of a unit to one of its steps: "52.5 cm", "20 5/8 in".
function written(value, unit, name, data) {
  const { parts, steps } = data.units[unit];
  const { step, fewest_decimals: fewest, decimals } = steps[name];
  const rounded_ = roundHalfUp(value, step);
  if (parts === null || name === "fine") {
    const text = rounded_.toFixed(decimals);
    return `${fewest < decimals ? text.replace(/0$/, "") : text} ${unit}`;
  }
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

// As plainLength, but rounded up.
function atLeast(cm, unit, data) {
  const { cm: per, steps } = data.units[unit];
  const { step } = steps.usual;
  return written(Math.ceil(cm / (step * per) - data.hair) * step, unit, "usual", data);
}

// Two lengths and their gap, as coarse as tells them apart: a difference that decides is never rounded away.
function compared(first, second, unit, data) {
  const { cm: per, steps, gap_error: error } = data.units[unit];
  const [one, other] = [first / per, second / per];
  const gap = Math.abs(one - other);
  const equal = Math.abs(first - second) <= data.hair;
  for (const name of ["usual", "fine"]) {
    const { step } = steps[name];
    const printed = Math.abs(roundHalfUp(one, step) - roundHalfUp(other, step));
    if ((printed > step / 2 || equal) && Math.abs(printed - gap) <= error) {
      return [one, other, printed].map((each) => written(each, unit, name, data));
    }
  }
  const texts = [one, other].map((each) => written(each, unit, "fine", data));
  return [...texts, filled(data.words.less_than, { length: written(steps.fine.step, unit, "fine", data) })];
}

// A fraction in percent, unlike every limit it is held against.
function percent(fraction, against, signed, data) {
  let words;
  for (const { step, decimals } of data.percents) {
    const texts = [fraction, ...against].map((each) => {
      const rounded_ = roundHalfUp(each * 100, step);
      return (signed && rounded_ >= 0 ? "+" : "") + rounded_.toFixed(decimals);
    });
    [words] = texts;
    const limits = texts.slice(1);
    if (!limits.includes(words) || against.some((limit) => Math.abs(fraction - limit) <= data.hair)) break;
  }
  return `${words} %`;
}

// What was typed, written in another unit: exact enough to read, the value behind it is kept as it was.
function converted(value, from, to, data) {
  return rounded((value * data.units[from].cm) / data.units[to].cm, data.units[to].typed_step);
}
