// A piece as it is measured half-way, and what the poncho comes to if it goes on so: see schematics.fitting.progress.

const doneFields = ["done", "done-width", "done-height"].map((id) => ({ id, input: element(id) }));

// Stitches of a row of a piece, and how many rows it has.
function rowsOf({ runs }, row) {
  let left = row;
  const all = runs.reduce((sum, [rows]) => sum + rows, 0);
  const [, stitches] = runs.find(([rows]) => { left -= rows; return left <= 0; }) ?? [];
  return { all, stitches };
}

// What was typed: {row, width, height}, or the problem of a field by its id.
function typedDone(worked_) {
  const problems = {};
  const all = rowsOf(worked_, 1).all;
  const [rows, width, height] = doneFields.map(({ input }) => input.value.trim());
  const row = Number(rows);
  if (rows !== "" && !(Number.isInteger(row) && row >= 1 && row <= all)) problems.done = filled(data.words.halfway.rows, { most: all });
  const lengths = [["done-width", width], ["done-height", height]].map(([id, text]) => {
    const { cm, problem } = readLength(text, unit, data);
    if (problem !== undefined) problems[id] = problem;
    return cm;
  });
  return { problems, row: rows === "" || problems.done ? undefined : row, width: lengths[0], height: lengths[1] };
}

// The gauge that is measured on a piece, and whether it is near the pattern's at all.
function gaugeOfPiece({ fabric, runs }, { row, width, height }) {
  const { stitches } = rowsOf({ runs }, row);
  const pattern = data.fabrics[fabric];
  const counts = { stitches: [stitches, width], rows: [row, height] };
  const gauge = Object.fromEntries(Object.entries(counts).map(([kind, [count, overCm]]) => (
    [kind, { times: count / overCm / pattern[kind].per_cm, swatch: { count, over_cm: overCm } }]
  )));
  const { loosest, tightest } = data.gauge;
  const near = Object.values(gauge).every(({ times }) => times >= loosest - data.hair && times <= tightest + data.hair);
  return { gauge, near };
}

function showHalfway(inputs, stretched, nothing) {
  const place = Number(sizeField.input.value);
  const size = data.sizes[place];
  const piece = element("piece").value;
  const rows = size.worked[piece];
  const done = typedDone(rows);
  for (const { id, input } of doneFields) {
    say(element(`${id}-problem`), done.problems[id] ?? "");
    element(`${id}-problem`).hidden = !(id in done.problems);
    input.toggleAttribute("aria-invalid", false);
    if (id in done.problems) input.setAttribute("aria-invalid", "true");
  }
  const told = done.row === undefined ? [] : halfwayWords({ size, piece, rows, done, inputs, stretched, nothing });
  element("halfway-answer").replaceChildren(...told);
}

function halfwayWords({ size, piece, rows, done, inputs, stretched, nothing }) {
  const words = data.words.halfway;
  const pattern = data.fabrics[rows.fabric];
  const { all, stitches } = rowsOf(rows, done.row);
  const [across, up] = data.halfway.grains[piece];
  const width = plainLength(stitches / pattern.stitches.per_cm, unit, data, across);
  const height = plainLength(done.row / pattern.rows.per_cm, unit, data, up);
  const sentences = [filled(words.expected, { width, height })];
  const paragraphs = () => sentences.map((each) => made("p", each));
  if (done.width === undefined || done.height === undefined) return paragraphs();
  const { gauge, near } = gaugeOfPiece(rows, done);
  if (!near) return [...paragraphs(), made("p", words.far)];
  const alike = pattern.body;
  const fabrics = pulledAs(stretched, fabricsAt(gauge, data, { place: rows.fabric, alone: !alike }), data);
  const lengths = lengthsOf(fabrics);
  const { span_cm: spanCm, span, gauge_step: step } = data.units[unit];
  const over = (kind, times = 1) => rounded(pattern[kind].per_cm * times * spanCm, step, data);
  const [stitchesOver, rowsOver] = ["stitches", "rows"].map((kind) => over(kind, gauge[kind].times));
  const usual = { usual_stitches: over("stitches"), usual_rows: over("rows") };
  sentences.push(filled(words.gauge, { stitches: stitchesOver, rows: rowsOver, span, ...usual }), words[alike ? "alike" : "alone"]);
  const instead = worked(data.halfway.instead, { facts: { rows: all, times: gauge.rows.times } });
  const band = data.halfway.bands.includes(piece);
  if (instead !== all) sentences.push(filled(band ? words.kept[Number(instead > all)] : words.instead, { piece, rows: instead, all }));
  if (!band) sentences.push(followWords(size, lengths));
  if (piece === "body") sentences.push(words.stays);
  if (nothing) return paragraphs();
  const one = judge(size, { ...inputs, facts: factsOf(size, lengths), own_gauge: true }, inDoubt(inputs, fabrics, data), [inputs]);
  const reasons = joined(reasonsOf(one).map((each) => each.words));
  sentences.push(filled(words.comes, { size: size.name, verdict: fitsWords(one), reasons }));
  const worries = one.lines.filter(({ answer }) => answer === "stop" || answer === "mind");
  return [...paragraphs(), listOf(worries), finishedTable(size, lengths, rows, piece)];
}

// The rows of the panel whose sides come out as long as what they are seamed to, if all goes on so.
function followWords(size, lengths) {
  const { follows } = data.words.halfway;
  const [, { name, words }] = size.made.seams[0];
  const count = factsOf(size.made, lengths)["0.second.count"];
  return filled(follows, { counted: `${count} ${name} ${words[Number(count !== 1)]}` });
}

// What every measurement comes to, beside the pattern's.
function finishedTable(size, lengths) {
  const [own, usual] = [lengths, lengthsOf(data.fabrics)].map((each) => factsOf(size, each));
  const table = made("table", undefined, "counts");
  table.append(made("caption", filled(data.words.halfway.use, { size: size.name })));
  const body = made("tbody");
  for (const { dataset } of cells.filter((cell) => cell.dataset.size === size.name)) {
    const row = made("tr");
    const head = made("th", data.halfway.names[dataset.finished]);
    head.scope = "row";
    const [mine, theirs] = [own, usual].map((facts) => plainLength(facts[`finished.${dataset.finished}`], unit, data, dataset.grain));
    row.append(head, made("td", mine), made("td", theirs, "quiet"));
    body.append(row);
  }
  table.append(body);
  return table;
}

for (const { input } of doneFields) input.addEventListener("input", () => update());
element("piece").addEventListener("change", () => update());
