// The counts of a size at a maker's gauge, its finished lengths, and the two pages that are printed of them.

const cells = [...document.querySelectorAll("[data-finished]")];
const sizeField = { input: element("chosen"), byHer: false };

// What is told of a size by the keys of the pattern's figures, see schematics.fitting.page.counts_data.
function countsAt(place, lengths) {
  const { rows } = data.sizes[place].own_counts;
  const own = pickedRows(data.sizes[place], lengths);
  const picked = new Set();
  const found = {};
  for (const { rows: told } of data.counts) {
    for (const { key, texts } of told) {
      found[key] = texts[place];
      if (texts[place] === "" || !(key in rows)) continue;
      const [edge, less, over] = rows[key];
      const count = String(Math.round((own[edge] - less) / over));
      if (count !== texts[place]) picked.add(edge);
      found[key] = count;
    }
  }
  for (const key of Object.keys(found).filter((each) => each.endsWith(".schedule") && each.startsWith("picked_up"))) {
    const base = key.replace(/schedule$/, "");
    const usual = data.counts.flatMap((group) => group.rows).find((row) => row.key === `${base}stitches`)?.texts[place];
    if (found[`${base}stitches`] === usual) continue;
    found[key] = filled(data.words.own_counts.spread, { stitches: found[`${base}stitches`], rows: found[`${base}rows`] });
  }
  return { found, picked };
}

function gaugeWords(gauge, words) {
  const { span_cm: spanCm, span, gauge_step: step } = data.units[unit];
  const over = (kind) => rounded((data.gauge[kind] * (gauge[kind]?.times ?? 1) * spanCm) / data.gauge.span_cm, step, data);
  return filled(words, { stitches: over("stitches"), rows: over("rows"), span });
}

// How much more or less yarn stitches of her size take: it grows as they do in length, not in area.
function scaledWords(gauge) {
  const area = ["stitches", "rows"].reduce((sum, kind) => sum / (gauge[kind]?.times ?? 1), 1);
  const more = Math.sqrt(area) - 1;
  if (Math.abs(more) <= data.alike) return [];
  return [filled(data.words.own_counts.scaled[Number(more > 0)], { percent: Math.round(100 * Math.abs(more)) })];
}

function cellOf({ key, unit: counted }, found, label) {
  const cell = made("td", withUnit(found[key], counted));
  if (label) cell.dataset.label = label;
  cell.dataset.count = key;
  return cell;
}

function headOf(words, scope) {
  const head = made("th", words);
  head.scope = scope;
  return head;
}

function rowOf(head, cells_) {
  const row = made("tr");
  row.append(headOf(head, "row"), ...cells_);
  return row;
}

const LONG = 30;

function countsTable({ title, columns, rows }, found) {
  const table = made("table", undefined, columns ? "counts matrix" : "counts");
  table.append(made("caption", title));
  const body = made("tbody");
  if (columns) {
    const top = made("thead");
    top.append(made("tr"));
    top.firstChild.append(made("td"), ...columns.map((each) => headOf(each, "col")));
    table.append(top);
    for (let at = 0; at < rows.length; at += columns.length) {
      body.append(rowOf(rows[at].name, rows.slice(at, at + columns.length).map((each, column) => cellOf(each, found, columns[column]))));
    }
  } else {
    for (const each of rows.filter(({ key }) => found[key] !== "")) {
      const cell = cellOf(each, found);
      const row = rowOf(each.name, found[each.key].length > LONG ? [] : [cell]);
      body.append(row);
      if (row.children.length > 1) continue;
      const below = made("tr");
      for (const across of [row.firstChild, cell]) across.setAttribute("colspan", 2);
      below.append(cell);
      body.append(below);
    }
  }
  table.append(body);
  return columns ? withRoles(table) : table;
}

// A table that is one to the ear however it is laid out.
function withRoles(table) {
  const roles = { thead: "rowgroup", tbody: "rowgroup", tr: "row", td: "cell" };
  table.setAttribute("role", "table");
  for (const [name, role] of Object.entries(roles)) {
    for (const each of table.querySelectorAll(name)) each.setAttribute("role", role);
  }
  for (const each of table.querySelectorAll("th")) each.setAttribute("role", each.scope === "col" ? "columnheader" : "rowheader");
  return table;
}

// Everything of the section, for the size that she chose, or that is advised.
function showCounts(judged, best, gauge, lengths, ownGauge) {
  const words = data.words.own_counts;
  if (!sizeField.byHer && best) sizeField.input.value = String(data.sizes.findIndex(({ name }) => name === best.name));
  const place = Number(sizeField.input.value);
  const size = data.sizes[place];
  const { found, picked } = countsAt(place, lengths);
  element("counts-tables").replaceChildren(...data.counts.map((group) => countsTable(group, found)).filter((table) => table.querySelector("td")));
  say(element("counts-gauge"), gaugeWords(gauge, words.at));
  const notes = ownGauge ? [filled(words.own, { size: size.name }), ...scaledWords(gauge), ...(picked.size > 0 ? [words.picked] : [])] : [words.usual];
  say(element("counts-note"), notes.join(" "));
  const other = judged[place];
  const beside = other && other !== best
    ? `${filled(data.words.size, { size: size.name, verdict: verdictWords(other) })}. ${shortly(other)}` : "";
  say(element("counts-other"), beside);
  const minded = other ? mindedOf(other, best) : [];
  element("minded").replaceChildren(...minded);
  say(element("minded-where"), minded.length > 0 ? filled(data.words.minded_where, { size: size.name }) : "");
  for (const node of document.querySelectorAll(".finished")) node.hidden = Number(node.dataset.size) !== place;
  const name = element("name").value.trim();
  say(element("counts-title"), filled(name ? words.for : words.nobody, { title: document.querySelector("h1").dataset.title, name, size: size.name }));
  showFinished(judged, lengths, ownGauge);
}

// What is to be minded of the size that is printed; of one that is not hers that it is not, where it was not advised.
function mindedOf(one, best) {
  const worries = worriesOf(one);
  if (worries.length === 0) return [];
  const all = one === best || !one.notHers ? [listOf(worries)] : [];
  return [made("h2", filled(data.words.minded, { size: one.name })), ...notHersWords(one), ...all];
}

function showFinished(judged, lengths, ownGauge) {
  document.body.classList.toggle("own-gauge", ownGauge);
  if (!ownGauge) return;
  const facts = Object.fromEntries(data.sizes.map((size, at) => [size.name, judged[at]?.inputs.facts ?? factsOf(size, lengths)]));
  for (const cell of cells) {
    const { size, finished, grain } = cell.dataset;
    say(cell, plainLength(facts[size][`finished.${finished}`], unit, data, grain));
  }
}

// ---- on paper: the date is hers, or that of the day it is printed

function dated() {
  const today = () => new Date().toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  say(element("printed-on"), element("date").value.trim() || today());
}

sizeField.input.addEventListener("change", () => {
  sizeField.byHer = true;
  update();
});
element("name").addEventListener("input", () => update());
element("print").addEventListener("click", () => window.print());
window.addEventListener("beforeprint", dated);
