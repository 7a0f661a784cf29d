// Chances of what follows from many independent normal errors, as events that can be put together: see
// schematics.wearer.events. An event has deviates, shares, and the margin and sd of the comparison that decides it.

function dot(one, other) {
  return one.reduce((sum, each, place) => sum + each * other[place], 0);
}

function otherwise({ deviates, shares, margin, sd }) {
  return { deviates: -deviates, shares: shares.map((each) => -each), margin: -margin, sd };
}

// How many standard deviations a margin is over nought, as far as functions of the normal distribution go.
function deviatesOf(margin, sd, { farthest }) {
  return Math.min(farthest, Math.max(-farthest, margin / sd));
}

// That a margin is over nought, which each error moves by so much if it is one standard deviation.
function overNought(margin, slopes, data) {
  const { certain, no_sd_cm: noSd } = data.chances;
  const sd = Math.sqrt(dot(slopes, slopes));
  if (!(sd > noSd)) {
    return { deviates: margin > data.hair ? certain : -certain, shares: slopes.map(() => 0), margin, sd };
  }
  return { deviates: deviatesOf(margin, sd, data.chances), shares: slopes.map((each) => each / sd), margin, sd };
}

// That all of them happen; those that are most alike are put together first.
function allOf(events, data) {
  let left = events;
  while (left.length > 1) {
    let most = { alike: -Infinity };
    left.forEach((one, at) => {
      left.slice(at + 1).forEach((other) => {
        const alike = dot(one.shares, other.shares);
        if (alike > most.alike) most = { alike, pair: [one, other] };
      });
    });
    left = [...left.filter((each) => !most.pair.includes(each)), bothOf(...most.pair, most.alike, data)];
  }
  return left[0];
}

function anyOf(events, data) {
  return otherwise(allOf(events.map(otherwise), data));
}

function bothOf(one, other, alike, data) {
  const { chances } = data;
  for (const [certain, rest] of [[one, other], [other, one]]) {
    if (Math.abs(certain.deviates) >= chances.certain) return certain.deviates > 0 ? rest : certain;
  }
  const less = other.margin - one.margin;
  const tighter = Math.abs(less) <= data.hair ? one.sd >= other.sd : less > 0;
  const { margin, sd, shares } = tighter ? one : other;
  if (alike >= chances.alike) return { ...(one.deviates <= other.deviates ? one : other), margin, sd };
  const apart = Math.max(chances.least_apart, Math.sqrt(Math.max(0, 1 - alike * alike)));
  const weight = (its, others) => density(its.deviates) * below((others.deviates - alike * its.deviates) / apart);
  const [first, second] = [weight(one, other), weight(other, one)];
  const moved = one.shares.map((each, place) => first * each + second * other.shares[place]);
  const size = Math.sqrt(dot(moved, moved));
  return {
    deviates: deviateOf(bothBelow(one.deviates, other.deviates, alike, chances.normal), chances.normal),
    shares: size > 0 ? moved.map((each) => each / size) : shares,
    margin,
    sd,
  };
}
