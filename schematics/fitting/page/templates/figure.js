// A plain figure of the child with the poncho on it, arms down, as schematics.wearer.body_figure and
// schematics.drawing.worn.drape have it; centimetres, the midline at nought, the floor at nought and upwards.

// The lengths and breadths of the figure; undefined where the height is not known.
function figureSize(inputs, { figure }) {
  const known = { ...inputs, terms: { ...inputs.terms, ...figure.terms }, unknown: false, made: undefined };
  const cm = Object.fromEntries(Object.entries(figure.lengths).map(([body, tree]) => [body, worked(tree, known)]));
  if (!Object.values(cm).every(Number.isFinite)) return undefined;
  const head = figure.head_breadth * cm.head_girth;
  const [neck, shoulder] = [cm.neck_girth / Math.PI / 2, cm.shoulder_breadth / 2];
  const fall = (x) => Math.max(x - neck, 0) * figure.slope;
  const tip = [shoulder, cm.nape_height - fall(shoulder)];
  const round = (girth) => girth / (2 * Math.PI);
  return {
    cm, head, neck, fall, tip,
    headHigh: figure.head_height * head,
    chest: [(figure.trunk_breadth * cm.chest_girth) / 2, tip[1] - cm.upper_arm_girth / Math.PI],
    hip: [(figure.trunk_breadth * figure.hip_to_chest * cm.chest_girth) / 2, cm.hip_height],
    arm: {
      length: Math.max(cm.centre_back_neck_to_wrist - shoulder, 0),
      hand: figure.hand * cm.height,
      radii: [cm.upper_arm_girth, cm.wrist_girth, cm.hand_girth].map(round),
    },
  };
}

// Points along the arm, off its middle outwards.
function armAt({ tip: [x, y], arm: { length, radii: [upper, wrist, hand] } }, angle) {
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  const radius = (along) => (along > length ? hand : upper + (wrist - upper) * (length > 0 ? along / length : 1));
  const at = (along, off = 0) => [x + along * sine + (off - upper) * cosine, y - along * cosine + (off - upper) * sine];
  return { radius, at };
}

// The poncho on the figure: outlines, and where hem and bands come; undefined where it cannot be drawn.
function wornOn(size, facts, { worn, sag, figure, bodyPlace }) {
  const { tip, fall, cm } = size;
  const reach = facts.reach_cm;
  const half = Math.min(Math.max(facts["neck.rest_cm"] / (2 * Math.PI), size.neck), tip[0]);
  const over = Math.hypot(tip[0] - half, fall(tip[0]) - fall(half));
  const measured = Number.isFinite(reach);
  const along = Math.max(measured ? reach - facts.band_depth_cm - tip[0] : facts.drop_cm - over, 0);
  const angle = hangingAngle(size, facts, along, over, figure);
  const { radius, at } = armAt(size, angle);
  const edge = Math.max(facts["arm.edge_cm"] / (2 * Math.PI), radius(along));
  const [outer, inner] = [at(along, edge), at(along, -edge)];
  const per = facts[`${bodyPlace}.${worn.counted}`];
  const [run, before] = [worn.run / 2 * per, worn.before * per];
  const lowest = Math.max(inner[1] - before, tip[1] - Math.hypot(along, run + before));
  const corner = worn.on === "hem" ? inner : [inner[0], lowest];
  const hem = cm.nape_height - facts.drop_cm * sag;
  const side = cm.nape_height - fall(half);
  const steps = [...Array(25).keys()].map((each) => each / 24);
  const neck = steps.map((step) => (Math.PI / 2) * step).map((turn) => [half * Math.sin(turn), side - fall(half) * Math.cos(turn)]);
  if (hem >= Math.min(neck[0][1], tip[1])) return undefined;
  const armSide = along <= 0 ? [] : along > size.arm.length ? [at(size.arm.length, radius(size.arm.length)), outer] : [outer];
  const lower = steps.map((step) => 1 - step).map((share) => [corner[0] * share, hem + (corner[1] - hem) * share * share]);
  const end = along + facts.band_depth_cm;
  const rest = facts["arm.rest_cm"] / (2 * Math.PI);
  const ends = [along, end].map((each) => [each, Math.max(rest, radius(each))]);
  const depth = facts["finished.neck_band.depth"];
  return {
    angle, hem, corner, along, end, half, neckSide: side,
    cloth: [...neck, tip, ...armSide, inner, ...lower],
    neckBand: [...neck, ...[...neck].reverse().map(([x, y]) => [x, y + depth])],
    armBand: [...ends.map(([each, off]) => at(each, off)), ...[...ends].reverse().map(([each, off]) => at(each, -off))],
    seam: seamOf(facts, side, half, fall(half), hem, corner),
    bandEnd: at(end),
  };
}

// The right seam of the panel, straight from the neck edge to the hem.
function seamOf(facts, side, half, fall, hem, corner) {
  const foot = facts["finished.panel.width"] / 2;
  const top = (facts["finished.panel.top"] ?? facts["finished.panel.width"]) / 2;
  const upper = Math.min(top, half);
  const share = Math.min(foot / corner[0], 1);
  return [[upper, side - fall * Math.sqrt(1 - (upper / half) ** 2)], [foot, hem + (corner[1] - hem) * share * share]];
}

function hangingAngle({ tip, cm }, facts, along, over, figure) {
  const [down, points] = [figure.arms_down, [0, 1, 2].map((each) => [facts[`girth.${each}.depth_cm`], facts[`girth.${each}.girth_cm`]])];
  const [depths, girths] = [points.map(([depth]) => depth), points.map(([, girth]) => girth)];
  const girth = facts["girth.closed"] ? between(over + along, depths, girths) : Infinity;
  const overArm = Math.max((facts["arm.edge_cm"] - cm.upper_arm_girth) / (2 * Math.PI), 0);
  const room = (figure.trunk_breadth * girth) / 2 - tip[0] - overArm;
  if (along <= 0 || room >= along * Math.sin(down)) return down;
  return Math.max(Math.asin(Math.max(room, 0) / along), figure.least_angle);
}

// The parts of the body on the right and the left, each a closed outline.
function bodyParts(size, angle, { figure }) {
  const { cm, chest, hip, neck, tip, arm } = size;
  const { at, radius } = armAt(size, angle);
  const both = (points) => [points, points.map(([x, y]) => [-x, y])];
  const across = (points) => [...points, ...[...points].reverse().map(([x, y]) => [-x, y])];
  const disc = ([x, y], rx, ry = rx, turn = 0) => [...Array(32).keys()].map((each) => (each * Math.PI) / 16).map((each) => {
    const [a, b] = [rx * Math.cos(each), ry * Math.sin(each)];
    return [x + a * Math.cos(turn) - b * Math.sin(turn), y + a * Math.sin(turn) + b * Math.cos(turn)];
  });
  const thigh = hip[0] / 2;
  const [knee, ankle] = [figure.knee_breadth, figure.ankle_breadth].map((share) => Math.min((share * cm.height) / 2, thigh));
  const [ankleHigh, foot] = [figure.ankle_height * cm.height, (figure.foot * cm.height) / 2];
  const leg = [[thigh, hip[1], thigh], [thigh, cm.knee_height, knee], [thigh, ankleHigh, ankle]];
  const limb = (points) => [...points.map(([x, y, r]) => [x - r, y]), ...[...points].reverse().map(([x, y, r]) => [x + r, y])];
  const headAt = [0, cm.height - size.headHigh / 2];
  return [
    disc(headAt, size.head / 2, size.headHigh / 2),
    across([[neck, headAt[1]], [neck, chest[1]]]),
    across([[neck, cm.nape_height], tip, chest, hip]),
    ...[
      [at(0, radius(0)), at(arm.length, radius(arm.length)), at(arm.length, -radius(arm.length)), at(0, -radius(0)), [neck, cm.nape_height]],
      disc(at(arm.length), arm.radii[1]),
      disc(at(arm.length + arm.hand / 2), arm.radii[2], arm.hand / 2, angle),
      limb(leg), disc([thigh, cm.knee_height], knee), disc([thigh, hip[1]], thigh),
      [[thigh - foot, 0], [thigh + foot, 0], [thigh + foot, ankleHigh / 2], [thigh + ankle, ankleHigh], [thigh - ankle, ankleHigh], [thigh - foot, ankleHigh / 2]],
    ].flatMap(both),
  ];
}
