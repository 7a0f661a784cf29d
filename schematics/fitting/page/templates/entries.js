// What is typed into the form, and what is known of the wearer from it.

const data = JSON.parse(document.getElementById("data").textContent);
const form = document.getElementById("child");
const element = (id) => document.getElementById(id);
const fields = Object.keys(data.bodies).map((body) => ({ body, input: element(body), entry: {} }));
const gaugeFields = ["stitches", "rows"].map((kind) => ({ kind, input: element(`gauge-${kind}`), entry: {} }));
const overField = { over: true, input: element("gauge-over"), entry: {} };
const stretchField = { stretch: true, input: element("stretch"), entry: {} };
const swatchFields = [...document.querySelectorAll("[id^=swatch-]:is(input)")].map((input) => ({ place: Number(input.id.replace("swatch-", "")), input, entry: {} }));
const ageField = { input: element("age"), entry: {} };
const everyField = [...fields, overField, ...gaugeFields, stretchField, ...swatchFields, ageField];
let { unit } = data;

// Sets the text only where it differs, so that nothing is announced twice.
function say(target, text) {
  if (target.textContent !== text) target.textContent = text;
}

function counted(count, [one, many]) {
  return count === 1 ? one : filled(many, { count });
}

// ---- entries

function readField(field) {
  const text = field.input.value;
  const result = field.body ? readBody(text, unit, field.body, data)
    : field.kind ? readGauge(text, unit, field.kind, data, overField.entry.cm)
    : field.over ? readLength(text, unit, data)
    : field.stretch ? readStretch(text, data)
    : field.place !== undefined ? readSwatch(text, unit, field.place, data)
    : readAge(text, data);
  field.entry = { ...result, text, typedIn: unit };
}

// What was counted over a width is read anew when that is typed.
function readWithOthers(field) {
  readField(field);
  if (!field.over) return;
  for (const each of gaugeFields) {
    readField(each);
    if (each.entry.problem === undefined) showProblem(each);
  }
}

function showProblem(field) {
  const { problem } = field.entry;
  const target = element(`${field.input.id}-problem`);
  say(target, problem ?? "");
  target.hidden = problem === undefined;
  if (problem === undefined) field.input.removeAttribute("aria-invalid");
  else field.input.setAttribute("aria-invalid", "true");
}

// Writes every entry in the other unit; behind it stays the value that was typed.
function switchUnit(to) {
  for (const field of everyField) {
    const { text, typedIn, problem } = field.entry;
    if (text === undefined || text.trim() === "") continue;
    if (problem !== undefined) {
      unit = to;
      readField(field);
      showProblem(field);
    } else if (typedIn === to) {
      field.input.value = text;
    } else if (field.body || field.over) {
      field.input.value = converted(field.entry.cm, "cm", to, data);
    } else if (field.kind && !(field.entry.bare && overField.entry.cm !== undefined)) {
      const spans = data.units[to].span_cm / data.units[typedIn].span_cm;
      field.input.value = rounded(field.entry.value * spans, data.units[to].gauge_step, data);
    }
  }
  unit = to;
  for (const each of document.querySelectorAll("[data-unit]")) say(each, data.units[unit].name);
  overField.input.placeholder = data.units[unit].span;
  for (const [id, words] of Object.entries(data.words.examples[unit])) element(id).placeholder = words;
}

// ---- what is known

function measured() {
  const typed = fields.filter(({ entry }) => entry.cm !== undefined).map(({ body, entry }) => [body, entry.cm]);
  return Object.fromEntries(typed);
}

function typedAge() {
  return ageField.entry.years ?? NaN;
}

// The maker's gauge, see fabricsAt; what she did not count, or over nobody knows what, is the pattern's.
function makersGauge() {
  const isOver = overField.entry.problem === undefined;
  const counted = gaugeFields.filter(({ entry }) => entry.times !== undefined && (isOver || !entry.bare));
  return Object.fromEntries(counted.map(({ kind, entry }) => [kind, entry]));
}
