// What is asked about measurements that hardly any body has, see schematics.wearer.asking.

function within(value, [low, high]) {
  return value >= low && value <= high;
}

// Whether a length would be usual if it were typed in the other unit.
function inOtherUnit(body, cm, bounds, unit, data) {
  const { low_cm: low, high_cm: high } = data.bodies[body];
  const [times] = data.asking.guesses[unit];
  return within(cm * times, bounds) && within(cm * times, [low, high]);
}

function questionOf(body, cm, bounds, beside, unit, data) {
  const { question, sides, guesses, no_guess: noGuess } = data.asking;
  const [, most, usualLow, usualHigh] = bounds;
  return filled(question, {
    length: plainLength(cm, unit, data),
    side: sides[Number(cm > most)],
    name: data.names[body],
    beside,
    low: plainLength(usualLow, unit, data),
    high: plainLength(usualHigh, unit, data),
    guess: inOtherUnit(body, cm, bounds, unit, data) ? guesses[unit][1] : noGuess,
  });
}

function questionOfTwo(own, pair, unit, data) {
  const { of_two: ofTwo, guesses, no_guess_of_two: noGuess } = data.asking;
  const meant = pair.filter(({ body, bounds }) => inOtherUnit(body, own[body], bounds, unit, data));
  const [[one, oneLength, oneLow, oneHigh], [other, otherLength, otherLow, otherHigh]] = pair.map(
    ({ body, bounds: [, , low, high] }) => (
      [data.names[body], ...[own[body], low, high].map((cm) => plainLength(cm, unit, data))]
    ),
  );
  return filled(ofTwo, {
    one,
    one_length: oneLength,
    one_low: oneLow,
    one_high: oneHigh,
    other,
    other_length: otherLength,
    other_low: otherLow,
    other_high: otherHigh,
    guess: meant.length === 1 ? filled(guesses[unit][2], { name: data.names[meant[0].body] }) : noGuess,
  });
}

// What is asked about below and above, and the ends of what is usual, by measurement: of what the age table has
// at an age, and of what follows from it.
function boundsAtAge(age, data) {
  const { far, end_sds: endSds } = data.asking;
  const bounds = {};
  const add = (name, { low, typical, high }, sd) => {
    const [down, up] = [low, high].map((end) => Math.hypot(end - typical, endSds * sd));
    bounds[name] = [typical - far * down, typical + far * up, typical - down, typical + up];
  };
  const body = {};
  for (const [name, table] of Object.entries(data.wearer.by_age)) {
    const found = readAtAge(table, age);
    if (found === undefined) continue;
    body[name] = found;
    if (heldAt(table, age) === undefined) add(name, found, 0);
  }
  const inputs = inputsOf(body, age, data);
  for (const { body: name, ways } of data.wearer.estimates) {
    const found = !(name in body) && firstWay(ways, inputs);
    if (!found) continue;
    const at = (end) => worked(found.value, { ...inputs, end });
    body[name] = { low: at("low"), typical: found.cm, high: at("high") };
    add(name, body[name], found.sd * Math.abs(found.cm));
  }
  return bounds;
}

// The questions by measurement, from what was measured in cm and an age or NaN.
function questionsOf(own, age, unit, data) {
  const { asking } = data;
  const asked = {};
  const atAge = boundsAtAge(age, data);
  for (const [body, cm] of Object.entries(own)) {
    const bounds = atAge[body];
    if (!bounds || within(cm, bounds)) continue;
    asked[body] = questionOf(body, cm, bounds, filled(asking.at_age, { age: ageWords(age, asking.ages) }), unit, data);
  }
  const free = (...bodies) => bodies.every((body) => !(body in asked));
  const apart = [];
  for (const [one, other, ratio] of asking.beside) {
    if (!(one in own && other in own && free(one, other))) continue;
    const [low, high, usualLow, usualHigh] = ratio;
    const first = ratio.map((each) => own[other] * each);
    const second = [1 / high, 1 / low, 1 / usualHigh, 1 / usualLow].map((each) => own[one] * each);
    if (within(own[one], first)) continue;
    apart.push([{ body: one, than: other, bounds: first }, { body: other, than: one, bounds: second }]);
  }
  const times = (body) => apart.flat().filter((each) => each.body === body).length;
  for (const pair of apart) {
    const [one, other] = pair;
    if (!free(one.body, other.body)) continue;
    const more = times(one.body) - times(other.body);
    if (more === 0) {
      asked[one.body] = questionOfTwo(own, pair, unit, data);
      asked[other.body] = asked[one.body];
    } else {
      const { body, than, bounds } = more > 0 ? one : other;
      const beside = filled(asking.beside_words, { name: data.names[than], length: plainLength(own[than], unit, data) });
      asked[body] = questionOf(body, own[body], bounds, beside, unit, data);
    }
  }
  return asked;
}
