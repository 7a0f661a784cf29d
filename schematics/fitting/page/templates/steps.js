// More measurements, one at a time, that which decides most first.

const steps = [...document.querySelectorAll(".step")].map((node) => ({ node, body: node.id.replace("step-", "") }));
const pictures = Object.fromEntries([...document.querySelectorAll("#guide figure")].map((figure) => [figure.dataset.view, figure]));
let order = steps;
let current = steps[0];

// How much of the doubt of a size each measurement is behind: what is not sure, and what is not judged for want of it.
function doubtBehind(one, { doubts }) {
  const behind = {};
  const add = (body, more) => { behind[body] = (behind[body] ?? 0) + more; };
  for (const { code, answer, making } of one.lines) {
    if (making) continue;
    if (answer === "unknown") {
      const gaps = data.asks[code].filter((body) => !(body in one.inputs.body));
      gaps.forEach((body) => add(body, 1 / gaps.length));
      continue;
    }
    const { chance, shares } = one.sureness[code];
    doubts.forEach(({ body }, index) => {
      if (body !== undefined && one.inputs.body[body].origin !== "own") add(body, Math.min(chance, 1 - chance) * shares[index] ** 2);
    });
  }
  return behind;
}

// Those that are not measured yet come first, the most decisive of them at the head.
function orderSteps(one, doubt) {
  const behind = one === undefined ? {} : doubtBehind(one, doubt);
  const weight = ({ body }) => (fields.find((each) => each.body === body).entry.cm === undefined ? 1 + (behind[body] ?? 0) : 0);
  order = [...steps].sort((a, b) => weight(b) - weight(a));
  const used = current.node.contains(document.activeElement) || fields.some(({ body, entry }) => body === current.body && entry.text);
  if (!used && !element("steps").contains(document.activeElement)) [current] = order;
  showStep(behind);
}

function showStep(behind = {}) {
  for (const each of steps) each.node.hidden = each !== current;
  const { of, decides } = data.words.steps;
  const place = order.indexOf(current);
  const first = place === 0 && behind[current.body] > 0 ? ` ${decides}` : "";
  say(element("step-place"), filled(of, { place: place + 1, all: order.length }) + first);
  element("step-back").disabled = place === 0;
  element("step-next").disabled = place === order.length - 1;
  const figure = pictures[current.node.dataset.view];
  const drawing = element("picture").querySelector("svg");
  if (drawing?.dataset.view !== figure.dataset.view) {
    if (drawing) pictures[drawing.dataset.view].querySelector(".pictured").append(drawing);
    const next = figure.querySelector("svg");
    next.dataset.view = figure.dataset.view;
    element("picture").replaceChildren(next);
  }
  for (const group of element("picture").querySelectorAll("[data-part]")) {
    group.classList.toggle("asked-for", group.dataset.part === current.body.replaceAll("_", "-"));
  }
}

function moveStep(by) {
  current = order[order.indexOf(current) + by] ?? current;
  showStep();
  current.node.querySelector("input").focus();
}

element("step-back").addEventListener("click", () => moveStep(-1));
element("step-next").addEventListener("click", () => moveStep(1));
