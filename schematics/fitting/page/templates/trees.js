// Trees worked out from the data that Python wrote, see schematics.wearer.expr and schematics.wearer.traced: of
// one number each, or of columns, which are lists of numbers of one length. There is no limit, no measurement
// and no formula in here.

const SIGNS = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  min: (a, b) => Math.min(a, b),
  max: (a, b) => Math.max(a, b),
  and: (a, b) => a && b,
  or: (a, b) => a || b,
  first: (a, b) => (Number.isNaN(a) ? b : a),
};

const FUNCTIONS = {
  where: (truth, a, b) => (truth ? a : b),
  not: (truth) => !truth,
  isnan: (a) => Number.isNaN(a),
  less: (a, b) => a < b,
  less_equal: (a, b) => a <= b,
  greater: (a, b) => a > b,
  greater_equal: (a, b) => a >= b,
  absolute: Math.abs,
  negative: (a) => -a,
  floor: Math.floor,
  ceil: Math.ceil,
  power: (a, b) => a ** b,
  square: (a) => a * a,
  sqrt: Math.sqrt,
  hypot: (a, b) => Math.sqrt(a * a + b * b),
  sin: Math.sin,
  cos: Math.cos,
  tan: Math.tan,
  arcsin: Math.asin,
  arccos: Math.acos,
  arctan: Math.atan,
  arctan2: Math.atan2,
  radians: (a) => (a * Math.PI) / 180,
  degrees: (a) => (a * 180) / Math.PI,
};

// What a function of up to three numbers makes of them; where some are columns, of one row after the other.
function across(work, [one, other, third]) {
  const rows = (Array.isArray(one) ? one : Array.isArray(other) ? other : Array.isArray(third) ? third : null)?.length;
  if (rows === undefined) return work(one, other, third);
  const at = (value, row) => (Array.isArray(value) ? value[row] : value);
  const column = new Array(rows);
  for (let row = 0; row < rows; row += 1) column[row] = work(at(one, row), at(other, row), at(third, row));
  return column;
}

// The value of a tree; what is unknown is NaN, and a comparison with it is what inputs.unknown says. What goes by
// a name is worked out once for the same inputs.made, where there are such.
function worked(node, inputs) {
  if (typeof node === "number") return node;
  if (node === null) return NaN;
  if (Array.isArray(node)) return applied(node[0], node.slice(1), inputs);
  if ("body" in node) return inputs.body[node.body]?.[node.end ?? inputs.end] ?? NaN;
  if ("fact" in node) return inputs.facts[node.fact] ?? NaN;
  if ("wearer" in node) return inputs[node.wearer];
  if ("term" in node) return termed(node.term, inputs);
  throw new TypeError(`no node: ${JSON.stringify(node)}`);
}

function termed(name, inputs) {
  const { made, terms } = inputs;
  if (made === undefined) return worked(terms[name], inputs);
  if (!made.has(name)) made.set(name, worked(terms[name], inputs));
  return made.get(name);
}

function applied(word, parts, inputs) {
  if (word === "table") return tabled(parts, inputs);
  const values = parts.map((part) => worked(part, inputs));
  if (word === "<" || word === "<=") return across((low, high) => compares(word, low, high, inputs), values);
  if (word in FUNCTIONS) return across(FUNCTIONS[word], values);
  if (!(word in SIGNS)) throw new TypeError(`no sign: ${word}`);
  return values.reduce((one, other) => across(SIGNS[word], [one, other]));
}

function compares(word, low, high, { unknown, hair }) {
  if (hair === undefined) throw new TypeError(`nothing to compare by: ${word}`);
  if (Number.isNaN(low) || Number.isNaN(high)) return unknown;
  return word === "<" ? high > low + hair : low <= high + hair;
}

function tabled([at, points], inputs) {
  const values = [at, ...points.flat()].map((node) => worked(node, inputs));
  const read = ([x, ...ends]) => between(x, ends.filter((_, place) => place % 2 === 0), ends.filter((_, place) => place % 2 === 1));
  const column = values.find(Array.isArray);
  if (column === undefined) return read(values);
  return column.map((_, row) => read(values.map((each) => (Array.isArray(each) ? each[row] : each))));
}

// Straight between the points, level beyond them.
function between(x, xs, ys) {
  const last = xs.length - 1;
  if (Number.isNaN(x)) return NaN;
  if (x <= xs[0]) return ys[0];
  if (x >= xs[last]) return ys[last];
  const index = xs.findIndex((each, number) => each <= x && x < xs[number + 1]);
  return ((ys[index + 1] - ys[index]) / (xs[index + 1] - xs[index])) * (x - xs[index]) + ys[index];
}
