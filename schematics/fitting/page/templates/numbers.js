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

// A length to one of the unit's steps: "52.5 cm", "20 5/8 in".
function length(cm, unit, step, data) {
  const { cm: per, parts, decimals } = data.units[unit];
  const value = roundHalfUp(cm / per, step);
  if (parts === null || step !== 1 / parts) return `${value.toFixed(decimals[String(step)])} ${unit}`;
  const total = Math.round(Math.abs(value) * parts);
  const whole = Math.floor(total / parts);
  let [over, under] = [total % parts, parts];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const words = [whole > 0 || over === 0 ? `${whole}` : "", over > 0 ? `${over}/${under}` : ""];
  return `${value < 0 ? "−" : ""}${words.filter(Boolean).join(" ")} ${unit}`;
}

function plainLength(cm, unit, data) {
  return length(cm, unit, data.units[unit].steps[0], data);
}

// Two lengths and their gap, as coarse as tells them apart: a difference that decides is never rounded away.
function compared(first, second, unit, data) {
  const { cm: per, steps } = data.units[unit];
  const gap = Math.abs(first - second);
  for (const step of steps) {
    const [one, other] = [first, second].map((cm) => roundHalfUp(cm / per, step));
    const printed = Math.abs(one - other);
    if (gap <= data.hair || (printed > step / 2 && Math.abs(printed - gap / per) <= data.units[unit].gap_error + data.hair)) {
      return [length(first, unit, step, data), length(second, unit, step, data), length(printed * per, unit, step, data)];
    }
  }
  const finest = steps[steps.length - 1];
  const texts = [first, second].map((cm) => length(cm, unit, finest, data));
  return [...texts, filled(data.words.less_than, { length: length(finest * per, unit, finest, data) })];
}

// What was typed, written in another unit: exact enough to read, the value behind it is kept as it was.
function converted(value, from, to, data) {
  return rounded((value * data.units[from].cm) / data.units[to].cm, data.units[to].typed_step);
}
