// From entries to verdicts, at every change; and what the browser is asked to keep.

const cells = [...document.querySelectorAll("[data-finished]")];
let announcing;

function update() {
  const own = measured();
  const age = typedAge();
  const inputs = completed(own, age, data);
  const gauge = makersGauge();
  const fabrics = fabricsAt(gauge, data);
  const lengths = lengthsOf(fabrics);
  const ownGauge = Object.keys(gauge).length > 0;
  const nothing = Object.keys(inputs.body).length === 0;
  const doubt = inDoubt(inputs, fabrics, data);
  const judged = cards.map((shown) => {
    const facts = factsOf(shown.size, lengths);
    return nothing ? null : judge(shown, { ...inputs, facts, own_gauge: ownGauge }, doubt);
  });
  element("verdicts").hidden = nothing;
  showGauge(gauge, lengths, ownGauge);
  showTaken(inputs, ownGauge);
  showQuestions(questionsOf(own, age, unit, data));
  announce(nothing ? [] : judged, ownGauge);
  keep();
}

// One short sentence for the ear and the eye, spoken when the typing pauses; and the sizes by verdict.
function announce(judged, ownGauge) {
  const { summary } = data.words;
  const parts = [judged.length === 0 ? summary.nothing : advise(judged)];
  const problems = everyField.filter(({ entry }) => entry.problem !== undefined).length;
  if (ownGauge && judged.length > 0) parts.unshift(summary.gauge);
  if (problems > 0) parts.push(counted(problems, summary.problems));
  clearTimeout(announcing);
  announcing = setTimeout(() => say(element("summary"), parts.join(" ")), 300);
  const sizes = (verdict) => judged.filter((each) => each.verdict === verdict).map(({ name }) => name);
  const tally = ["good", "unknown", "mind", "stop"].filter((verdict) => sizes(verdict).length > 0);
  say(element("tally"), tally.map((verdict) => filled(summary[verdict], { sizes: joined(sizes(verdict)) })).join(" "));
}

// Under each field what is reckoned with where nothing is typed, and all of it in a list for paper.
function showTaken(inputs, ownGauge) {
  const items = !ownGauge ? [] : [element("gauge-taken").textContent];
  for (const { body, entry } of fields) {
    const value = inputs.body[body];
    const other = entry.cm !== undefined && entry.named !== unit && entry.named !== entry.typedIn;
    const length_ = value && plainLength(value.typical, unit, data);
    const origin = value && originOf(value);
    say(element(`${body}-taken`), value && (value.origin !== "own" || other)
      ? filled(data.words.taken, { length: length_, origin }) : "");
    if (value) items.push(filled(data.words.used.item, { name: data.bodies[body].name, length: length_, origin }));
  }
  element("used").replaceChildren(...(items.length > 0 ? items : [data.words.used.none]).map((words) => {
    const item = document.createElement("li");
    item.textContent = words;
    return item;
  }));
}

function showQuestions(asked) {
  for (const { body } of fields) {
    const target = element(`${body}-question`);
    say(target, asked[body] ?? "");
    target.hidden = !(body in asked);
  }
}

function showGauge(gauge, lengths, ownGauge) {
  const { span_cm: spanCm, span, gauge_step: step } = data.units[unit];
  const over = (kind) => rounded((data.gauge[kind] * (gauge[kind]?.times ?? 1) * spanCm) / data.gauge.span_cm, step);
  const words = data.words.gauge[ownGauge ? "taken" : "pattern"];
  say(element("gauge-taken"), filled(words, { stitches: over("stitches"), rows: over("rows"), span }));
  document.body.classList.toggle("own-gauge", ownGauge);
  if (!ownGauge) return;
  const facts = Object.fromEntries(data.sizes.map((size) => [size.name, factsOf(size, lengths)]));
  for (const cell of cells) {
    const { size, finished, grain } = cell.dataset;
    say(cell, plainLength(facts[size][`finished.${finished}`], unit, data, grain));
  }
}

// ---- what is kept, and only when asked

function keep() {
  if (!element("remember").checked) return;
  const entries = everyField.filter(({ entry }) => entry.text);
  const kept = {
    unit,
    entries: entries.map(({ input, entry }) => ({ id: input.id, text: entry.text, unit: entry.typedIn })),
  };
  store(() => localStorage.setItem(data.store, JSON.stringify(kept)), data.words.store.kept);
}

function store(action, words) {
  try {
    action();
    say(element("stored"), words);
  } catch {
    element("remember").checked = false;
    say(element("stored"), data.words.store.refused);
  }
}

function forget() {
  element("remember").checked = false;
  store(() => localStorage.removeItem(data.store), data.words.store.forgotten);
}

// What may be anything as text, empty where it is none.
function wordsOf(value) {
  return typeof value === "string" ? value : "";
}

// Puts back what was kept on an earlier visit; what cannot be read is left alone.
function recall() {
  let kept;
  try {
    kept = JSON.parse(localStorage.getItem(data.store));
  } catch {
    return;
  }
  if (kept === null || !Array.isArray(kept.entries)) return;
  for (const each of kept.entries) {
    const [id, text, typedIn] = [each?.id, each?.text, each?.unit].map(wordsOf);
    const field = everyField.find(({ input }) => input.id === id);
    if (field === undefined || !data.units[typedIn]?.typed) continue;
    unit = typedIn;
    field.input.value = text;
    readField(field);
    showProblem(field);
  }
  const keptUnit = wordsOf(kept.unit);
  element(`unit-${data.units[keptUnit]?.typed ? keptUnit : unit}`).checked = true;
  element("remember").checked = true;
}

function clearAll() {
  forget();
  form.reset();
  for (const field of everyField) {
    readField(field);
    showProblem(field);
  }
  switchUnit(form.elements.unit.value);
  update();
}

// ---- events

for (const field of everyField) {
  field.input.addEventListener("input", () => {
    readField(field);
    if (field.entry.problem === undefined) showProblem(field);
    update();
  });
  field.input.addEventListener("change", () => showProblem(field));
}
for (const radio of document.querySelectorAll("[name=unit]")) {
  radio.addEventListener("change", () => {
    switchUnit(radio.value);
    update();
  });
}
element("remember").addEventListener("change", ({ target }) => (target.checked ? keep() : forget()));
element("forget").addEventListener("click", clearAll);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  for (const field of everyField) showProblem(field);
});

recall();
switchUnit(form.elements.unit.value);
update();
