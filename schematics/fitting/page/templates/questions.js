// What is asked about measurements that hardly any body has, see schematics.fitting.asking.

function within(value, [low, high]) {
  return value >= low && value <= high;
}

// Which other unit a length was typed in, asked; or just whether it is right.
function guessOf(body, cm, bounds, unit, data) {
  const { low_cm: low, high_cm: high } = data.bodies[body];
  const [times, words] = data.asking.guesses[unit];
  return within(cm * times, bounds) && within(cm * times, [low, high]) ? words : data.asking.no_guess;
}

function questionOf(body, cm, bounds, beside, unit, data) {
  const { question, sides } = data.asking;
  const [, most, usualLow, usualHigh] = bounds;
  return filled(question, {
    length: plainLength(cm, unit, data),
    side: sides[Number(cm > most)],
    name: data.names[body],
    beside,
    low: plainLength(usualLow, unit, data),
    high: plainLength(usualHigh, unit, data),
    guess: guessOf(body, cm, bounds, unit, data),
  });
}

// What is asked about below and above, and the ends of what is usual; undefined where the age table has none.
function boundsAtAge(body, age, data) {
  const table = data.wearer.by_age[body];
  const found = table && readAtAge(table, age);
  if (found === undefined || heldAt(table, age) !== undefined) return undefined;
  const { low, typical, high } = found;
  const { far } = data.asking;
  return [typical - far * (typical - low), typical + far * (high - typical), low, high];
}

// The questions by measurement, from what was measured in cm and an age or NaN.
function questionsOf(own, age, unit, data) {
  const { asking } = data;
  const asked = {};
  for (const [body, cm] of Object.entries(own)) {
    const bounds = boundsAtAge(body, age, data);
    if (!bounds || within(cm, bounds)) continue;
    const shown = String(Number(age.toPrecision(6)));
    asked[body] = questionOf(body, cm, bounds, filled(asking.at_age, { age: shown }), unit, data);
  }
  for (const [one, other, ratio] of asking.beside) {
    if (!(one in own && other in own) || one in asked || other in asked) continue;
    const [low, high, usualLow, usualHigh] = ratio;
    const first = ratio.map((each) => own[other] * each);
    const second = [1 / high, 1 / low, 1 / usualHigh, 1 / usualLow].map((each) => own[one] * each);
    if (within(own[one], first)) continue;
    const known = (body, bounds) => guessOf(body, own[body], bounds, unit, data) !== asking.no_guess;
    const turn = !known(one, first) && known(other, second);
    const [body, than, bounds] = turn ? [other, one, second] : [one, other, first];
    const beside = filled(asking.beside_words, { name: data.names[than], length: plainLength(own[than], unit, data) });
    asked[body] = questionOf(body, own[body], bounds, beside, unit, data);
  }
  return asked;
}
