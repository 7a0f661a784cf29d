// The normal distribution, of one number and of two that go together, see schematics.wearer.normal; its numbers
// are data.

function density(deviate) {
  return Math.exp((-deviate * deviate) / 2) / Math.sqrt(2 * Math.PI);
}

// The chance of lying below so many standard deviations over the mean: the series of G. Marsaglia, Evaluating the
// normal distribution, Journal of Statistical Software 11, 2004 (from memory).
function below(deviate) {
  let [sum, before, power, odd] = [deviate, NaN, deviate, 1];
  while (sum !== before) {
    odd += 2;
    power *= (deviate * deviate) / odd;
    [before, sum] = [sum, sum + power];
  }
  return 0.5 + sum * density(deviate);
}

function polynomial(factors, at) {
  return factors.reduce((sum, factor, power) => sum + factor * at ** power, 0);
}

function deviateOf(chance, normal) {
  if (chance > 0.5) return -deviateOf(1 - chance, normal);
  const root = Math.sqrt(-2 * Math.log(Math.max(chance, normal.least_chance)));
  return polynomial(normal.over, root) / polynomial(normal.under, root) - root;
}

// The chance that two numbers of that correlation lie below these deviates.
function bothBelow(first, second, correlation, normal) {
  if (Math.abs(correlation) > normal.one) {
    const [one, other] = [below(first), below(second)];
    return correlation > 0 ? Math.min(one, other) : Math.max(0, one + other - 1);
  }
  const angle = Math.asin(correlation);
  const squares = first * first + second * second;
  const sum = normal.weights.reduce((total, weight, place) => {
    const sine = Math.sin(normal.halves[place] * angle);
    return total + weight * Math.exp((2 * first * second * sine - squares) / (2 - 2 * sine * sine));
  }, 0);
  return Math.min(1, Math.max(0, below(first) * below(second) + (angle / (4 * Math.PI)) * sum));
}
