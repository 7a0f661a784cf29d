// From entries to verdicts, at every change; and what the browser is asked to keep.

let announcing;

function update() {
  const own = measured();
  const age = typedAge();
  const inputs = completed(own, age, data);
  const gauge = makersGauge();
  const fabrics = swatchedAs(swatchFields, pulledAs(stretchField.entry, fabricsAt(gauge, data), data), data);
  const lengths = lengthsOf(fabrics);
  const swatched = [stretchField, ...swatchFields].some(({ entry }) => entry.stretch !== undefined || Object.keys(entry.counted ?? {}).length > 0);
  const ownGauge = swatched || Object.keys(gauge).length > 0;
  const nothing = Object.keys(inputs.body).length === 0;
  const doubt = inDoubt(inputs, fabrics, data);
  const atEnds = ["low", "typical", "high"].map((end) => completed(own, age, data, end));
  const judged = nothing ? [] : judgeAll(inputs, doubt, lengths, ownGauge, atEnds);
  const best = nothing ? undefined : bestOf(judged);
  const judgedAt = (there) => judgeAll(there, inDoubt(there, fabrics, data), lengths, ownGauge, [there]);
  element("why").hidden = nothing;
  if (!nothing) showSizes(judged, best);
  const kinds = Object.keys(gauge);
  const half = kinds.length === 1 ? data.words.gauge.half[kinds[0]] : "";
  say(element("gauge-taken"), gaugeWords(gauge, data.words.gauge[ownGauge ? "taken" : "pattern"]) + half);
  showTaken(inputs, ownGauge);
  showQuestions(questionsOf(own, age, unit, data));
  showCounts(judged, best, gauge, lengths, ownGauge);
  const shown = judged[Number(sizeField.input.value)];
  showDrawn(sizeField.byHer ? shown : best);
  showHalfway(inputs, stretchField.entry, nothing);
  orderSteps(best, doubt);
  announce(judged, best, ownGauge, () => otherSizes(judged, best, atEnds, judgedAt));
  showCareful(!nothing && worked(data.young, { ...inputs, unknown: false }));
  keep();
}

// What children under three want stands beside the verdict, or else among the other cautions.
function showCareful(young) {
  element("careful").hidden = !young;
  for (const caution of document.querySelectorAll("#cautions .told-above")) caution.hidden = young;
}

// One short sentence for the ear and the eye, spoken when the typing pauses, with the other sizes that it could be;
// and why, and what is left out.
function announce(judged, best, ownGauge, otherNames) {
  const { summary } = data.words;
  clearTimeout(announcing);
  const words = best === undefined ? summary.nothing : advisedWords(best);
  announcing = setTimeout(() => {
    say(element("summary"), words);
    say(element("amiss"), best === undefined ? "" : amissWords(best));
    const others = best === undefined ? [] : otherNames();
    say(element("left-open"), others.length === 0 ? "" : filled(summary.left_open[Number(others.length > 1)], { sizes: joined(others) }));
  }, 300);
  say(element("because"), best === undefined ? "" : sentenceOf(reasonsOf(best)));
  const problems = everyField.filter(({ entry }) => entry.problem !== undefined).length;
  const notes = [...(ownGauge && best ? [summary.gauge] : []), ...(problems > 0 ? [counted(problems, summary.problems)] : [])];
  say(element("tally"), notes.join(" "));
  element("answer").dataset.verdict = best?.verdict ?? "";
}

// Under each field what is reckoned with where nothing is typed, and all of it in a list.
function showTaken(inputs, ownGauge) {
  const items = [];
  for (const { body, entry } of fields) {
    const value = inputs.body[body];
    const other = entry.cm !== undefined && entry.named !== unit && entry.named !== entry.typedIn;
    const length_ = value && plainLength(value.typical, unit, data);
    const origin = value && originOf(value);
    say(element(`${body}-taken`), value && (value.origin !== "own" || other)
      ? filled(data.words.taken, { length: length_, origin }) : "");
    if (value) items.push(filled(data.words.used.item, { name: data.bodies[body].name, length: length_, origin }));
  }
  element("used").replaceChildren(...(items.length > 0 ? items : [data.words.used.none]).map((words) => made("li", words)));
}

function showQuestions(asked) {
  for (const { body } of fields) {
    const target = element(`${body}-question`);
    say(target, asked[body] ?? "");
    target.hidden = !(body in asked);
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
  sizeField.byHer = false;
  for (const { input } of [...everyField, ...doneFields]) input.value = "";
  for (const id of ["name", "date"]) element(id).value = "";
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
    readWithOthers(field);
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

window.addEventListener("resize", () => {
  roomFor = undefined;
  update();
});

recall();
switchUnit(form.elements.unit.value);
update();
