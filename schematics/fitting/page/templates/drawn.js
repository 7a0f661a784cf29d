// The drawing of this child in this poncho, with what is to spare written where it is.

const SVG_NAME = document.querySelector("svg").namespaceURI;

function drawnNode(name, attributes, words) {
  const node = document.createElementNS(SVG_NAME, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (words !== undefined) node.textContent = words;
  return node;
}

// Lines of at most so many letters.
function broken(words, letters) {
  return words.split(" ").reduce((lines, word) => {
    const last = lines[lines.length - 1];
    if (last !== undefined && `${last} ${word}`.length <= letters) return [...lines.slice(0, -1), `${last} ${word}`];
    return [...lines, word];
  }, []);
}

// Lengths by the size of the page's text: a line, labels beside the figure, what is left of it, and the narrowest figure.
const [LETTERS, LETTER_REM] = [15, 0.56];
const [LINE_REM, LABEL_REM, LEFT_REM, FIGURE_REM] = [1.125, 9.25, 3.75, 5];

// How wide drawings may be, and the size of the text, until the window changes: to ask each time would lay the page
// out at each letter.
let roomFor;

function roomIn(target) {
  return { wide: target.clientWidth || 320, rem: parseFloat(getComputedStyle(document.documentElement).fontSize) };
}

// Draws into an element: the figure as large as there is room, and labels beside it that keep clear of each other; where
// that would leave the figure no room they stand under it, numbered.
function drawOn(target, { size, facts, worn, reasons, title }) {
  const angle = worn?.angle ?? data.figure.arms_down;
  const parts = bodyParts(size, angle, data);
  const all = [...parts.flat(), ...(worn ? [...worn.cloth, ...worn.armBand, ...worn.neckBand] : [])];
  const halfWide = Math.max(...all.map(([x]) => x)) + 2;
  roomFor ??= roomIn(target);
  const { wide: room, rem } = roomFor;
  const [high, left] = [Math.min(480, Math.max(280, window.innerHeight * 0.5)), LEFT_REM * rem];
  const beside = room >= (LEFT_REM + FIGURE_REM + LABEL_REM) * rem;
  const right = beside ? LABEL_REM * rem : rem;
  const scale = Math.min((high - 24) / size.cm.height, (room - left - right) / (2 * halfWide));
  const [middle, floor] = [left + halfWide * scale, size.cm.height * scale + 12];
  const wide = beside ? middle + halfWide * scale + right : room;
  const spot = ([x, y]) => [middle + x * scale, floor - y * scale].map((each) => each.toFixed(1)).join(" ");
  const path = (points, closed = true) => `M${points.map(spot).join("L")}${closed ? "Z" : ""}`;
  const mirror = (points) => points.map(([x, y]) => [-x, y]);
  const svg = drawnNode("svg", { role: "img" });
  svg.setAttribute("aria-label", `${title}: ${joined(reasons.map((each) => each.words))}`);
  const add = (className, points, closed) => svg.append(drawnNode("path", { class: className, d: path(points, closed) }));
  add("ground", [[-halfWide, 0], [halfWide, 0]], false);
  for (const part of parts) add("skin-line", part);
  for (const part of parts) add("skin", part);
  if (worn) {
    add("cloth", [...worn.cloth, ...mirror(worn.cloth).reverse()]);
    for (const seam of [worn.seam, mirror(worn.seam)]) add("seam", seam, false);
    const neckBand = [...worn.neckBand.slice(0, 25), ...worn.neckBand.slice(25)];
    add("band", [...mirror(neckBand.slice(0, 25)).reverse(), ...neckBand, ...mirror(neckBand.slice(25)).reverse()]);
    for (const band of [worn.armBand, mirror(worn.armBand)]) add("band", band);
  }
  measuredMarks(svg, { size, worn, spot, halfWide, angle });
  heightMark(svg, { size, spot, halfWide, scale, rem });
  const told = worn ? placedReasons(reasons, worn, { middle, floor, scale }) : [];
  if (beside) labels(svg, told, { x: middle + halfWide * scale + 0.875 * rem, floor, rem });
  const lowest = beside ? floor + 10 : numberedLabels(svg, told, { wide, floor, rem });
  for (const [name, value] of Object.entries({ viewBox: `0 0 ${wide.toFixed(0)} ${lowest.toFixed(0)}`, width: wide.toFixed(0), height: lowest.toFixed(0) })) svg.setAttribute(name, value);
  target.replaceChildren(svg);
}

// Where knee and wrist are, dashed.
function measuredMarks(svg, { size, worn, spot, halfWide, angle }) {
  const dashed = (from, to) => svg.append(drawnNode("path", { class: "level", d: `M${spot(from)}L${spot(to)}` }));
  dashed([-size.hip[0] * 1.2, size.cm.knee_height], [size.hip[0] * 1.2, size.cm.knee_height]);
  if (worn === undefined) return;
  const { at, radius } = armAt(size, angle);
  const off = radius(size.arm.length) + 3;
  const wrist = [at(size.arm.length, off), at(size.arm.length, -off)];
  dashed(...wrist);
  dashed(...wrist.map(([x, y]) => [-x, y]));
}

function heightMark(svg, { size, spot, halfWide, scale, rem }) {
  const x = -halfWide - 4 / scale;
  const [top, low] = [[x, size.cm.height], [x, 0]];
  svg.append(drawnNode("path", { class: "dimension", d: `M${spot(top)}L${spot(low)}` }));
  for (const [, y] of [top, low]) svg.append(drawnNode("path", { class: "dimension", d: `M${spot([x - 4 / scale, y])}L${spot([x + 4 / scale, y])}` }));
  const [at, level] = spot([x - 6 / scale, size.cm.height / 2]).split(" ").map(Number);
  const words = plainLength(size.cm.height, unit, data).split(/ (?=[a-z]+$)/);
  const text = drawnNode("text", { x: at, y: level, class: "figure-words", "text-anchor": "end" });
  words.forEach((word, line) => text.append(drawnNode("tspan", { x: at, dy: line === 0 ? 0 : LINE_REM * rem }, word)));
  svg.append(text);
}

// What is to spare, and the place it is about, from the top downwards.
function placedReasons(reasons, worn, { middle, floor, scale }) {
  const at = {
    neck: [worn.half, worn.neckSide],
    band: worn.bandEnd,
    hem: [worn.corner[0] * 0.3, worn.hem],
  };
  const placed = reasons.map((each) => {
    const [x, y] = at[data.words.reasons_at[each.code]];
    return { ...each, to: [middle + x * scale, floor - y * scale] };
  });
  return placed.sort((one, other) => one.to[1] - other.to[1]);
}

function linesOfWords(svg, lines, { x, y, className, rem }) {
  const text = drawnNode("text", { x: x.toFixed(1), y: y.toFixed(1), class: `figure-words ${className}` });
  lines.forEach((line, number) => text.append(drawnNode("tspan", { x: x.toFixed(1), dy: number === 0 ? 0 : LINE_REM * rem }, line)));
  svg.append(text);
}

// What is to spare, beside the place it is about.
function labels(svg, told, { x, floor, rem }) {
  const [line, apart] = [LINE_REM * rem, 0.5 * rem];
  const placed = told.map((each) => ({ ...each, lines: broken(each.words, LETTERS) }));
  let lowest = line;
  const highs = placed.map((each) => each.lines.length * line);
  placed.forEach((each, index) => {
    const below = highs.slice(index).reduce((sum, high) => sum + high + apart, 0);
    const [left, level] = each.to;
    const top = Math.min(Math.max(level - 4, lowest), Math.max(lowest, floor - below + line));
    lowest = top + highs[index] + apart;
    svg.append(drawnNode("path", { class: "leader", d: `M${(x - 4).toFixed(1)} ${(top - 0.3 * rem).toFixed(1)}L${left.toFixed(1)} ${level.toFixed(1)}` }));
    svg.append(drawnNode("circle", { class: "dot", cx: left.toFixed(1), cy: level.toFixed(1), r: 2 }));
    linesOfWords(svg, each.lines, { x, y: top, className: each.answer, rem });
  });
}

// The same under the figure, by numbers in the places they are about; gives how far down the drawing comes then.
function numberedLabels(svg, told, { wide, floor, rem }) {
  const [line, indent] = [LINE_REM * rem, 1.25 * rem];
  const letters = Math.floor((wide - indent) / (LETTER_REM * rem));
  const after = told.reduce((top, { words, to: [x, y], answer }, index) => {
    const number = `${index + 1}`;
    svg.append(drawnNode("circle", { class: "numbered", cx: x.toFixed(1), cy: y.toFixed(1), r: (0.6 * rem).toFixed(1) }));
    svg.append(drawnNode("text", { class: "figure-words number", x: x.toFixed(1), y: (y + 0.32 * rem).toFixed(1) }, number));
    const lines = broken(words, letters);
    linesOfWords(svg, [number], { x: 0, y: top, className: answer, rem });
    linesOfWords(svg, lines, { x: indent, y: top, className: answer, rem });
    return top + lines.length * line + 0.25 * rem;
  }, floor + 10 + line);
  return after - 0.6 * line;
}

// The drawing of a judged size, or why there is none.
function showDrawn(one) {
  const target = element("drawn");
  const size = one && figureSize(one.inputs, data);
  if (size === undefined) {
    target.replaceChildren(made("p", data.words.figure.undrawn, "quiet"));
    return;
  }
  const facts = { ...one.inputs.facts, ...one.lengths };
  const bodyPlace = data.fabrics.findIndex(({ body }) => body);
  const worn = wornOn(size, facts, { worn: one.size.worn, sag: data.figure.sag, figure: data.figure, bodyPlace });
  drawOn(target, { size, facts, worn, reasons: reasonsOf(one), title: filled(data.words.figure.title, { size: one.name }) });
}
