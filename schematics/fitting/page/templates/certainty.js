// How sure a verdict is, in words: see schematics.checks.certainty.

// By how much it holds, or of what is minded as measured, does not stop, give or take how much, and what to measure
// to be surer; undefined where nothing is in doubt.
function certaintyOf(rule, sure, measured, inputs, { doubts, fabrics }) {
  const { figures } = rule;
  const finite = [figures.body_cm, figures.garment_cm].every((tree) => Number.isFinite(worked(tree, inputs)));
  if (!finite || !(sure.sd >= data.chances.least_sd_cm)) return undefined;
  return {
    enough: sure.chance >= data.chances.sure_fraction,
    open: sure.chance > 1 - data.chances.sure_fraction,
    words: certaintyWords(sure, measured === "mind" && worked(rule.stops_if_it_fails, inputs), marginWords(rule, sure.margin, inputs)),
    measure: toMeasure(mostInDoubt(sure.shares, doubts), inputs, fabrics),
  };
}

// The sentence of a margin: of what is minded as measured, and may stop, it is that to a stop.
function certaintyWords(sure, minded, margin) {
  const { sure: words, so } = data.words;
  const alone = below(deviatesOf(sure.margin, sure.sd, data.chances));
  const chance = chanceWords(sure.chance, data);
  const by = chanceWords(alone, data) === chance ? "alone" : sure.chance < alone ? "all" : "any";
  const values = {
    margin,
    sd: isNought(sure.sd, unit, data) ? lessThan("usual", unit, data) : plainLength(sure.sd, unit, data),
    so: so[by],
    chance,
  };
  const plain = sure.margin <= 0 ? "fails" : minded ? "minded" : "holds";
  const told = isNought(sure.margin, unit, data) ? (minded ? "at_stop" : "at_limit") : plain;
  return filled(words[told], values);
}

// The margin, as the sentence before it has it where it is the gap of two lengths told there.
function marginWords(rule, margin, inputs) {
  for (const { kind, of, grains } of data.reasons[rule.code].printed) {
    if (kind !== "compared") continue;
    const [first, second] = of.map((tree) => worked(tree, inputs));
    if (Math.abs(Math.abs(first - second) - Math.abs(margin)) <= data.near) {
      return compared(first, second, unit, data, grains)[2];
    }
  }
  return plainLength(Math.abs(margin), unit, data);
}

function chanceWords(chance, data) {
  return data.words.chance_words.find(([limit]) => limit === null || chance < limit)[1];
}

// Of the errors the one that moves the margin most; of equal ones the first.
function mostInDoubt(shares, doubts) {
  const squares = shares.map((each) => each * each);
  return doubts[squares.indexOf(Math.max(...squares))];
}

function toMeasure({ body, place, error }, inputs, fabrics) {
  const { measure } = data.words;
  if (body !== undefined) {
    return filled(inputs.body[body].origin === "own" ? measure.again : measure.body, { body: data.names[body] });
  }
  const { parts, [error]: counted } = fabrics[place];
  const { cm } = data.units[unit];
  const twice = counted && plainLength(roundHalfUp((2 * counted.over_cm) / cm, 1, data) * cm, unit, data);
  return filled(measure[error], { parts, twice });
}

// A sentence and how sure it is; what is good, but not surely so, or may be either, is followed by what to measure.
function toldOf(words, measured, certainty) {
  if (certainty === undefined) return words;
  const told = `${words} ${certainty.words}`;
  if (certainty.enough || !(measured === "good" || certainty.open)) return told;
  return `${told} ${filled(data.words.to_be_sure, { measure: certainty.measure })}`;
}
