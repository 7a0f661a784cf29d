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

const LETTERS = 15;
const [LINE_PX, LABEL_PX, LEFT_PX] = [18, 148, 60];

// How wide drawings may be, until the window changes: to ask each time would lay the page out at each letter.
let roomFor;

// Draws into an element: the figure as large as there is room, and labels beside it that keep clear of each other.
function drawOn(target, { size, facts, worn, reasons, title }) {
  const angle = worn?.angle ?? data.figure.arms_down;
  const parts = bodyParts(size, angle, data);
  const all = [...parts.flat(), ...(worn ? [...worn.cloth, ...worn.armBand, ...worn.neckBand] : [])];
  const halfWide = Math.max(...all.map(([x]) => x)) + 2;
  roomFor ??= target.clientWidth || 320;
  const [room, high] = [roomFor, Math.min(480, Math.max(280, window.innerHeight * 0.5))];
  const scale = Math.min((high - 24) / size.cm.height, (room - LABEL_PX - LEFT_PX) / (2 * halfWide));
  const [middle, floor] = [LEFT_PX + halfWide * scale, size.cm.height * scale + 12];
  const wide = middle + halfWide * scale + LABEL_PX;
  const spot = ([x, y]) => [middle + x * scale, floor - y * scale].map((each) => each.toFixed(1)).join(" ");
  const path = (points, closed = true) => `M${points.map(spot).join("L")}${closed ? "Z" : ""}`;
  const mirror = (points) => points.map(([x, y]) => [-x, y]);
  const svg = drawnNode("svg", { viewBox: `0 0 ${wide.toFixed(0)} ${(floor + 10).toFixed(0)}`, width: wide.toFixed(0), height: (floor + 10).toFixed(0), role: "img" });
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
  heightMark(svg, { size, spot, middle, halfWide, scale, floor });
  if (worn) labels(svg, { size, worn, reasons, halfWide, scale, middle, floor });
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

function heightMark(svg, { size, spot, middle, halfWide, scale }) {
  const x = -halfWide - 4 / scale;
  const [top, low] = [[x, size.cm.height], [x, 0]];
  svg.append(drawnNode("path", { class: "dimension", d: `M${spot(top)}L${spot(low)}` }));
  for (const [, y] of [top, low]) svg.append(drawnNode("path", { class: "dimension", d: `M${spot([x - 4 / scale, y])}L${spot([x + 4 / scale, y])}` }));
  const [at, level] = spot([x - 6 / scale, size.cm.height / 2]).split(" ").map(Number);
  const words = plainLength(size.cm.height, unit, data).split(" ");
  const text = drawnNode("text", { x: at, y: level, class: "figure-words", "text-anchor": "end" });
  words.forEach((word, line) => text.append(drawnNode("tspan", { x: at, dy: line === 0 ? 0 : LINE_PX }, word)));
  svg.append(text);
}

// What is to spare, beside the place it is about.
function labels(svg, { size, worn, reasons, halfWide, scale, middle, floor }) {
  const at = {
    neck: [worn.half, worn.neckSide],
    band: worn.bandEnd,
    hem: [worn.corner[0] * 0.3, worn.hem],
  };
  const x = middle + halfWide * scale + 14;
  const placed = reasons.map((each) => ({ ...each, lines: broken(each.words, LETTERS), to: at[data.words.reasons_at[each.code]] }));
  placed.sort((one, other) => other.to[1] - one.to[1]);
  let lowest = LINE_PX;
  const highs = placed.map((each) => each.lines.length * LINE_PX);
  placed.forEach((each, index) => {
    const below = highs.slice(index).reduce((sum, high) => sum + high + 8, 0);
    const level = floor - each.to[1] * scale;
    each.top = Math.min(Math.max(level - 4, lowest), Math.max(lowest, floor - below + LINE_PX));
    lowest = each.top + highs[index] + 8;
    const target = [middle + each.to[0] * scale, level];
    svg.append(drawnNode("path", { class: "leader", d: `M${(x - 4).toFixed(1)} ${(each.top - 5).toFixed(1)}L${target.map((value) => value.toFixed(1)).join(" ")}` }));
    svg.append(drawnNode("circle", { class: "dot", cx: target[0].toFixed(1), cy: target[1].toFixed(1), r: 2 }));
    const text = drawnNode("text", { x: x.toFixed(1), y: each.top.toFixed(1), class: `figure-words ${each.answer}` });
    each.lines.forEach((line, number) => text.append(drawnNode("tspan", { x: x.toFixed(1), dy: number === 0 ? 0 : LINE_PX }, line)));
    svg.append(text);
  });
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
