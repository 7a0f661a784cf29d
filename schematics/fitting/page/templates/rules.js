// What the rules of fit answer.

// A rule's answer by its name in data.answers: sure where doubt would not change it, else unknown.
function answered(rule, inputs) {
  const truth = (tree, unknown) => tree !== null && worked(tree, { ...inputs, unknown });
  if (truth(rule.stop, false)) return "stop";
  const minded = truth(rule.mind, false);
  if (truth(rule.stop, true) || (!minded && truth(rule.mind, true))) return "unknown";
  return minded ? "mind" : "good";
}
