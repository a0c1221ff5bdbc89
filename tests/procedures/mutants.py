"""Mutation test of the verifier: each step of the good demonstration lists is spoiled in every way, one at a
time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from dossier.model.procedure import Act, Procedure, ProcedureStep
from dossier.procedures.acts import HANDS_ON_JOINT
from dossier.procedures.chain import Chain, chain, faults, stop_faults
from dossier.procedures.fault import Fault
from dossier.procedures.listing import Listing, Step, listing
from dossier.procedures.rules.checking import preflight_covers
from dossier.procedures.rules.table import RUN_RULES, WORD_RULES
from dossier.procedures.run import Run, replay
from dossier.procedures.state import State, differences
from dossier.procedures.system import System
from dossier.project import Project, load
from procedures.word_mutants import spoiled_words

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
DEMOS = ("barrow-t2", "quillet-e1")
SAFETY_KINDS = (
    "deleted",
    "swapped",
    "moved to the end",
    "second check deleted",
    "second check by the maker",
    "one person fewer",
    "wrong side",
    "wrong position",
    "torque high",
    "torque low",
    "hazard deleted",
    "hazard one step late",
    "count wrong",
    "duplicated",
    "words of the other side",
    "number in words wrong",
    "done by whoever holds",
)


@dataclass(frozen=True)
class Mutant:
    """One spoiled list."""

    project: str
    kind: str
    procedure: str
    step: int
    """Number in the good list."""
    text: str
    """The step as written."""
    spoiled: Procedure

    @property
    def name(self) -> str:
        """Kind, list and step."""
        return f"{self.kind}: {self.procedure}, step {self.step}: {self.text}"


@dataclass(frozen=True)
class Good:
    """A demonstration project with everything fitted, and its lists as replayed."""

    project: Project
    system: System
    lists: tuple[Listing, ...]
    chain: Chain

    def run_of(self, name: str) -> Run:
        """Return the replay of one list."""
        return next(run for run in self.chain.runs if run.listing.name == name)


@cache
def good(name: str) -> Good:
    """Load a demonstration project."""
    project = load(PROJECTS / name, ())
    assert project.rigging is not None
    system = System(project.rigging, project.aircraft, project.battery, frozenset())
    lists = tuple(
        listing(stem, one, (), project.rigging.people)
        for stem, one in project.procedures.items()
        if one.starts_from
    )
    return Good(project, system, lists, chain(system, lists))


def caught_by(mutant: Mutant) -> Fault | None:
    """Return the first fault of safety that the verifier finds, None if the mutant survives."""
    base = good(mutant.project)
    spoiled = listing(mutant.procedure, mutant.spoiled, (), base.system.rigging.people)
    before = base.run_of(mutant.procedure)
    run = replay(base.system, spoiled, before.start)
    for rule in RUN_RULES:
        for fault in rule(run):
            return fault
    for word_rule in WORD_RULES:
        for fault in word_rule(spoiled, base.system):
            return fault
    lists = [spoiled if one.name == mutant.procedure else one for one in base.lists]
    for fault in preflight_covers(base.system, lists):
        return fault
    if next(differences(before.end, run.end), None) is None and _known(before.end, run.end):
        # the lists behind this one start as before; those that turn round at a stop meet the spoiled one
        if spoiled.procedure.kind not in ("rigging", "de-rigging"):
            return None
        runs = tuple(run if one.listing.name == mutant.procedure else one for one in base.chain.runs)
        return next(stop_faults(replace(base.chain, runs=runs)), None)
    return next(faults(chain(base.system, lists)), None)


def _known(before: State, after: State) -> bool:
    """Whether the same joints have the same facts: checks are facts too, and later lists rely on them."""
    return all(joint.facts == after.joints[name].facts for name, joint in before.joints.items())


def mutants(name: str) -> Iterator[Mutant]:
    """Make every mutant of a demonstration project."""
    base = good(name)
    other = _other_side(base.system)
    for one in base.lists:
        for index, step in enumerate(one.steps):
            made = (
                *_spoiled(one.procedure, index, step, other, frozenset(base.system.parts)),
                *((kind, _with(one.procedure, index, [step_])) for kind, step_ in spoiled_words(step, other)),
                *_by_the_holder(base.run_of(one.name), index, step),
            )
            for kind, spoiled in made:
                yield Mutant(name, kind, one.name, step.number, str(step.written.do), spoiled)


def _by_the_holder(run: Run, index: int, step: Step) -> Iterator[tuple[str, Procedure]]:
    """Let whoever holds a part alone put both hands to a joint instead."""
    for moment in run.moments:
        if moment.doing.step is not step or moment.doing.second or moment.verb not in HANDS_ON_JOINT:
            continue
        for part in moment.before.parts.values():
            if part.held and len(part.holders) == 1 and not part.holders & set(moment.doing.people):
                holders = sorted(part.holders)
                words = [str(run.system.rigging.people[one].name) for one in holders]
                acts = [_by(act, holders) for act in step.written.acts]
                changed = step.written.model_copy(update={"acts": acts, "by": " and ".join(words)})
                yield "done by whoever holds", _with(run.listing.procedure, index, [changed])
                return


def _spoiled(
    procedure: Procedure, index: int, numbered: Step, other: Mapping[str, str], parts: frozenset[str]
) -> Iterator[tuple[str, Procedure]]:
    flat, step = [one for section in procedure.sections for one in section.steps], numbered.written
    yield "deleted", _with(procedure, index, [])
    yield "duplicated", _with(procedure, index, [step, step])
    if index + 1 < len(flat):
        following = flat[index + 1]
        # the hazards stay where they are: a box in another place is a mutant of its own
        yield (
            "swapped",
            _with(
                _with(procedure, index + 1, [_hazards(step, following.hazards)]),
                index,
                [_hazards(following, step.hazards)],
            ),
        )
    if len(flat) - index > 2:
        yield "moved to the end", _with(_with(procedure, len(flat) - 1, [flat[-1], step]), index, [])
    for kind, changed in _altered(numbered, other, parts):
        yield kind, _with(procedure, index, [changed])
    if step.hazards:
        yield "hazard deleted", _with(procedure, index, [_hazards(step, [])])
        if index + 1 < len(flat):
            following = flat[index + 1]
            late = _with(procedure, index + 1, [_hazards(following, [*following.hazards, *step.hazards])])
            yield "hazard one step late", _with(late, index, [_hazards(step, [])])


def _altered(
    numbered: Step, other: Mapping[str, str], parts: frozenset[str]
) -> Iterator[tuple[str, ProcedureStep]]:
    step = numbered.written
    maker = (
        [next(one for doing in numbered.doings if not doing.second for one in doing.people)]
        if step.acts
        else []
    )
    if step.second_acts:
        yield "second check deleted", step.model_copy(update={"second_check": None, "second_acts": []})
        yield (
            "second check by the maker",
            step.model_copy(update={"second_acts": [_by(act, maker) for act in step.second_acts]}),
        )
    moved = any(
        act.act in ("fetch", "place", "remove", "stow") and set(act.what) & parts for act in step.acts
    )
    if moved or any(act.act == "positive_check" for act in (*step.acts, *step.second_acts)):
        fewer = {
            "acts": [_by(act, maker) for act in step.acts],
            "second_acts": [_by(act, maker) for act in step.second_acts],
        }
        yield "one person fewer", step.model_copy(update=fewer)
    if any(name in other for act in step.acts for name in act.what):
        swapped = [
            act.model_copy(update={"what": [other.get(name, name) for name in act.what]}) for act in step.acts
        ]
        if [set(act.what) for act in swapped] != [set(act.what) for act in step.acts]:
            second = [
                act.model_copy(update={"what": [other.get(name, name) for name in act.what]})
                for act in step.second_acts
            ]
            yield "wrong side", step.model_copy(update={"acts": swapped, "second_acts": second})
    if step.torque is not None:
        for kind, factor in (("torque high", 1.3), ("torque low", 0.7)):
            value = replace(step.torque.value, value=step.torque.value.value * factor)
            yield kind, step.model_copy(update={"torque": step.torque.model_copy(update={"value": value})})
    if any(act.number is not None for act in step.acts):
        yield (
            "count wrong",
            step.model_copy(
                update={
                    "acts": [act.model_copy(update={"number": (act.number or 0) + 1}) for act in step.acts]
                }
            ),
        )
    if any(act.act == "set" for act in step.acts):
        yield (
            "wrong position",
            step.model_copy(update={"acts": [act for act in step.acts if act.act != "set"]}),
        )


def _by(act: Act, people: list[str]) -> Act:
    return act.model_copy(update={"by": people})


def _hazards(step: ProcedureStep, hazards: Sequence[str]) -> ProcedureStep:
    return step.model_copy(update={"hazards": list(hazards)})


def _with(procedure: Procedure, index: int, steps: list[ProcedureStep]) -> Procedure:
    """Replace the step at a place of the whole list by others."""
    sections, at = [], 0
    for old in procedure.sections:
        section, size = old, len(old.steps)
        if at <= index < at + size:
            inside = index - at
            section = section.model_copy(
                update={"steps": [*section.steps[:inside], *steps, *section.steps[inside + 1 :]]}
            )
        sections.append(section)
        at += size
    return procedure.model_copy(update={"sections": sections})


def _other_side(system: System) -> dict[str, str]:
    names = [*system.connections, *system.parts, *system.settings, *system.covers]
    pairs = {}
    for name in names:
        for one, two in (("left", "right"), ("upper", "lower")):
            mirrored = name.replace(one, two) if one in name else name.replace(two, one)
            if mirrored != name and mirrored in names:
                pairs[name] = mirrored
    return pairs


def relation(name: str) -> Mapping[str, frozenset[str]]:
    """Object -> the objects that it has to do with in rigging.yaml: named in its conditions, its ends, its
    cover, its pieces."""
    rigging = good(name).project.rigging
    assert rigging is not None
    groups = (
        rigging.parts,
        rigging.items,
        rigging.settings,
        rigging.checks,
        rigging.covers,
        rigging.connections,
        rigging.circuits,
    )
    names = {key for group in groups for key in group} | set(rigging.kits)
    return {
        key: frozenset(_names_in(one.model_dump(exclude={"name"}), names))
        for group in groups
        for key, one in group.items()
    }


def _names_in(value: object, names: set[str]) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _names_in(key, names)
            yield from _names_in(inner, names)
    elif isinstance(value, list):
        for inner in value:
            yield from _names_in(inner, names)
    elif isinstance(value, str) and value in names:
        yield value


def are_independent(mutant: Mutant, first: Step, second: Step) -> bool:
    """Whether two steps have nothing to do with each other by rigging.yaml, so that either order is as
    good."""
    related = relation_of(mutant.project)
    one, two = ({doing.name for doing in step.doings} - {""} for step in (first, second))
    if one & two:
        return False
    return not any(
        b in related.get(a, frozenset()) or a in related.get(b, frozenset()) for a in one for b in two
    )


@cache
def relation_of(name: str) -> Mapping[str, frozenset[str]]:
    """Keep the relation of a project."""
    return relation(name)
