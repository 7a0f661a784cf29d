"""What the rules answer, for one wearer or for columns of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.rule import NEVER, Rule
from schematics.checks.rules.sentence import Answer, Printed, Words
from schematics.checks.rules.size_rules import size_rules
from schematics.design.limits import Limits
from schematics.wearer.body import Body, Stage, Wearer
from schematics.wearer.evaluator import Evaluator, Inputs, Numbers, Truths, evaluator_of, evaluators_of
from schematics.wearer.expr import Expr

_EVERY_BODY = frozenset(Body)
_UNKNOWN, _MIND, _STOP = np.uint8(Answer.UNKNOWN), np.uint8(Answer.MIND), np.uint8(Answer.STOP)


JudgedClause: TypeAlias = Sequence[tuple[Words, Evaluator | None]]
"""A clause of a sentence: its alternatives and when each is used, None is always."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judge:
    """One rule, ready to be asked: its trees as functions, those of its sentence with its words.

    ``truths`` are whether it stops and whether it is to be minded, ``numbers`` the figures ``body_cm`` and
    ``garment_cm`` and what is reported.
    """

    rule: Rule
    needs: frozenset[Body]
    stop: Evaluator | None
    stops_if_it_fails: Evaluator
    truths: Callable[[Inputs], tuple[Truths, Truths]]
    mind_past: Evaluator | None
    mind_where: Evaluator | None
    figures: Mapping[str, Evaluator]
    numbers: Callable[[Inputs], tuple[Numbers, ...]]
    clauses: Mapping[Answer, Sequence[JudgedClause]]
    printed: Mapping[str, tuple[Printed, Callable[[Inputs], tuple[Numbers, ...]]]]
    amiss: JudgedClause

    def answer(self, inputs: Inputs) -> Answer:
        """What the rule says of one wearer."""
        stop, mind = self.truths(inputs.taking(False))
        if stop:
            return Answer.STOP
        if not inputs.gaps.isdisjoint(self.needs):
            may_stop, may_mind = self.truths(inputs.taking(True))
            if may_stop or (may_mind and not mind):
                return Answer.UNKNOWN
        return Answer.MIND if mind else Answer.GOOD

    def answers(self, inputs: Inputs) -> NDArray[np.uint8]:
        """What the rule says of each wearer of columns, as numbers of `Answer`."""
        stop, mind = self.truths(inputs.taking(False))
        certain: NDArray[np.uint8] = np.maximum(np.multiply(stop, _STOP), np.multiply(mind, _MIND))
        if inputs.gaps.isdisjoint(self.needs):
            return certain
        may_stop, may_mind = self.truths(inputs.taking(True))
        unsure = (may_stop | (may_mind > mind)) & np.logical_not(stop)
        return np.where(unsure, _UNKNOWN, certain).astype(np.uint8, copy=False)

    def figure(self, name: str, inputs: Inputs) -> Numbers:
        """One of the rule's figures, not a number where it is unknown."""
        return self.figures[name](inputs)

    def past_cm(self, inputs: Inputs) -> Numbers:
        """How far past its limit to mind it is: nought or less where it holds.

        Returns:
            Centimetres, not a number where something is unknown or cannot be measured.
        """
        if self.mind_past is None:
            return 0.0
        past = self.mind_past(inputs)
        return past if self.mind_where is None else np.where(self.mind_where(inputs), past, 0.0)[()]


@cache
def judges(limits: Limits) -> Mapping[str, Judge]:
    """The rules under these limits, ready to be asked, by their codes."""
    return {rule.code: _judge(rule) for rule in size_rules(limits)}


def _judge(rule: Rule) -> Judge:
    def work(tree: Expr | None) -> Evaluator | None:
        return None if tree is None else evaluator_of(tree)

    figures = rule.figures
    clauses = [[(words, work(words.when)) for words in clause] for clause in rule.sentence.clauses]
    return Judge(
        rule=rule,
        needs=frozenset(rule.needs),
        stop=work(rule.stop),
        stops_if_it_fails=evaluator_of(rule.stops_if_it_fails),
        truths=evaluators_of((rule.stop or NEVER, rule.mind or NEVER)),
        mind_past=work(rule.mind_past),
        mind_where=work(rule.mind_where),
        figures={name: evaluator_of(tree) for name, tree in figures.items()},
        numbers=evaluators_of((figures["body_cm"], figures["garment_cm"], *rule.reported.values())),
        clauses={
            answer: [[each for each in clause if each[0].answer in (None, answer)] for clause in clauses]
            for answer in Answer
        },
        printed={
            name: (each, evaluators_of(each.of)) for each in rule.sentence.printed for name in each.names
        },
        amiss=[(words, work(words.when)) for words in rule.sentence.amiss],
    )


def inputs_of(wearer: Wearer, facts: Mapping[str, float] | None = None) -> Inputs:
    """What trees are evaluated from for one wearer."""
    return Inputs(
        body=wearer.judged,
        gaps=_EVERY_BODY - wearer.values.keys(),
        adult=wearer.stage is Stage.ADULT,
        age_years=np.nan if wearer.age_years is None else wearer.age_years,
        facts=facts or {},
    )
