// From entries to verdicts, at every change; and what the browser is asked to keep.

const cells = [...document.querySelectorAll("[data-finished]")];
let announcing;

function update() {
  const own = measured();
  const age = chosenAge();
  const inputs = completed(own, age, data);
  const gauge = gaugePlace();
  const nothing = Object.keys(inputs.body).length === 0;
  const judged = cards.map((shown) => {
    const facts = factsOf(shown.size, gauge, data);
    return nothing ? null : judge(shown, { ...inputs, facts });
  });
  element("verdicts").hidden = nothing;
  showGauge(gauge);
  showTaken(inputs, gauge);
  showQuestions(questionsOf(own, age, unit, data));
  announce(nothing ? [] : judged, gauge);
  keep();
}

// One short sentence for the ear and the eye, spoken when the typing pauses; and the sizes by verdict.
function announce(judged, gauge) {
  const { summary } = data.words;
  const parts = [judged.length === 0 ? summary.nothing : advise(judged)];
  const problems = [...fields, ...gaugeFields].filter(({ entry }) => entry.problem !== undefined).length;
  if (gauge !== null && judged.length > 0) parts.unshift(summary.gauge);
  if (problems > 0) parts.push(counted(problems, summary.problems));
  clearTimeout(announcing);
  announcing = setTimeout(() => say(element("summary"), parts.join(" ")), 300);
  const sizes = (verdict) => judged.filter((each) => each.verdict === verdict).map(({ name }) => name);
  const tally = ["good", "unknown", "mind", "stop"].filter((verdict) => sizes(verdict).length > 0);
  say(element("tally"), tally.map((verdict) => filled(summary[verdict], { sizes: joined(sizes(verdict)) })).join(" "));
}

// Under each field what is reckoned with where nothing is typed, and all of it in a list for paper.
function showTaken(inputs, gauge) {
  const items = gauge === null ? [] : [element("gauge-taken").textContent];
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

function showGauge(gauge) {
  const { other } = data.gauge;
  const over = (kind, each) => rounded((each * data.units[unit].span_cm) / data.gauge.span_cm, data.units[unit].gauge_step);
  const taken = gauge === null
    ? [data.words.gauge.pattern, data.gauge.stitches, data.gauge.rows]
    : [data.words.gauge.taken, other.stitches[gauge.stitches], other.rows[gauge.rows]];
  const values = { stitches: over("stitches", taken[1]), rows: over("rows", taken[2]), span: data.units[unit].span };
  say(element("gauge-taken"), filled(taken[0], values));
  document.body.classList.toggle("own-gauge", gauge !== null);
  if (gauge === null) return;
  const facts = Object.fromEntries(data.sizes.map((size) => [size.name, factsOf(size, gauge, data)]));
  for (const cell of cells) {
    const { size, finished, grain } = cell.dataset;
    say(cell, plainLength(facts[size][`finished.${finished}`], unit, data, grain));
  }
}

// ---- what is kept, and only when asked

function keep() {
  if (!element("remember").checked) return;
  const entries = [...fields, ...gaugeFields].filter(({ entry }) => entry.text);
  const kept = {
    unit,
    age: element("age").value,
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
    const field = [...fields, ...gaugeFields].find(({ input }) => input.id === id);
    if (field === undefined || !data.units[typedIn]?.typed) continue;
    unit = typedIn;
    field.input.value = text;
    readField(field);
    showProblem(field);
  }
  const [age, keptUnit] = [kept.age, kept.unit].map(wordsOf);
  element("age").value = age;
  if (element("age").selectedIndex < 0) element("age").value = "";
  element(`unit-${data.units[keptUnit]?.typed ? keptUnit : unit}`).checked = true;
  element("remember").checked = true;
}

function clearAll() {
  forget();
  form.reset();
  for (const field of [...fields, ...gaugeFields]) {
    readField(field);
    showProblem(field);
  }
  switchUnit(form.elements.unit.value);
  update();
}

// ---- events

for (const field of [...fields, ...gaugeFields]) {
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
element("age").addEventListener("change", update);
element("remember").addEventListener("change", ({ target }) => (target.checked ? keep() : forget()));
element("forget").addEventListener("click", clearAll);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  for (const field of [...fields, ...gaugeFields]) showProblem(field);
});

recall();
switchUnit(form.elements.unit.value);
update();
