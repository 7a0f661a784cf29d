// Ages: what is typed for one, and what the age table has at it.

// An age typed into its field: {years}, {} or {problem}. See schematics.reading.spellings.
function readAge(text, data) {
  const { age, months } = data.spellings;
  const { problems } = data.words;
  if (text.trim() === "") return {};
  const match = new RegExp(age, "i").exec(text);
  if (match === null) return { problem: problems.not_an_age };
  const [, first, word, second, secondWord] = match;
  const monthsOf = (each) => {
    const plain = each.toLowerCase().replace(/\.$/, "");
    return Object.hasOwn(months, plain) ? months[plain] : NaN;
  };
  const [large, small] = [monthsOf(word ?? "years"), monthsOf(secondWord ?? "months")];
  const apart = second !== undefined && (word === undefined || large <= small);
  const years = [(numberOf(first, data.spellings) * large) / months.years];
  if (second !== undefined) years.push((numberOf(second, data.spellings) * small) / months.years);
  const all = years.reduce((one, other) => one + other);
  if (Number.isNaN(large + small + all) || apart) return { problem: problems.not_an_age };
  return all > data.wearer.oldest_years ? { problem: filled(problems.too_old, { oldest: data.wearer.oldest_years }) } : { years: all };
}

// The low end, typical value and high end of a measurement at an age, undefined where the table has none there.
// Of several series those count that go on, of one that has ended its last high end; see schematics.wearer.growth.
function readAtAge({ from_years: from, series, root }, age) {
  if (!(age >= from)) return undefined;
  const scale = root ? Math.sqrt : (years) => years;
  const begun = series.filter((each) => age >= (each.from_years ?? age));
  const goingOn = begun.filter((each) => age <= (each.until_years ?? age));
  const at = (end) => (each) => between(scale(age), each.years.map(scale), each[end]);
  const typical = goingOn.map(at("typical"));
  return {
    low: Math.min(...goingOn.map(at("low"))),
    typical: typical.reduce((one, other) => one + other) / typical.length,
    high: Math.max(...begun.map(at("high"))),
  };
}

// The end of the age table that answers for an age beyond it, in words; undefined within it.
function heldAt({ held }, age) {
  if (held === null || (age >= held.from_years && age < held.to_years)) return undefined;
  return age < held.from_years ? held.youngest : held.oldest;
}

// An age in words: see schematics.wearer.age_words.
function ageWords(years, words) {
  if (years < words.months_under_years) {
    const months = Math.floor(years * words.months_a_year + words.hair);
    return filled(words.months[Number(months !== 1)], { count: months });
  }
  const halves = Math.floor(2 * years + words.hair);
  return filled(words.years[halves % 2], { count: Math.floor(halves / 2) });
}
