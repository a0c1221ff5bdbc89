"""Mutation test of the verifier: each step of the good demonstration lists is spoiled in every way, one at a
time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, partial
from itertools import chain as chain_of
from pathlib import Path

from dossier.model.procedure import Act, Procedure, ProcedureStep
from dossier.procedures.acts import HANDS_ON_JOINT
from dossier.procedures.applicable import batteries, mentioned
from dossier.procedures.chain import Chain, chain, faults, stop_faults
from dossier.procedures.fault import Fault
from dossier.procedures.listing import Listing, Step, listing
from dossier.procedures.rules.checking import preflight_covers
from dossier.procedures.rules.table import MODEL_RULES, RUN_RULES, TEXT_RULES, WORD_RULES
from dossier.procedures.run import Run, replay
from dossier.procedures.state import State, differences
from dossier.procedures.system import System
from dossier.procedures.variants import variants
from dossier.project import Project, load
from dossier.replay import replay as replayed
from procedures.strays import stray_steps
from procedures.weak_mutants import weakened
from procedures.word_mutants import spoiled_words

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
DEMOS = ("barrow-t2", "quillet-e1")
MOVED = "moved by two or more"
ONLY_WORDS = frozenset(
    [
        "direction reversed",
        "limit of the same kind",
        "limit of another kind",
        "if_not deleted",
        "critical deleted",
        "tool deleted",
        "picture deleted",
        "verb weakened",
        "stray step in words",
    ]
)
"""Kinds in which every act stays, and every state with it."""


@dataclass(frozen=True)
class Variant:
    """What is fitted."""

    left_out: frozenset[str] = frozenset()
    battery: str | None = None
    """None for the heaviest."""

    def __str__(self) -> str:
        """Say which it is."""
        return (
            f"battery {self.battery or 'heaviest'}, without {', '.join(sorted(self.left_out)) or 'nothing'}"
        )


EVERYTHING = Variant()


@dataclass(frozen=True)
class Mutant:
    """One spoiled list."""

    project: str
    variant: Variant
    kind: str
    procedure: str
    step: int
    """Number in the good list."""
    text: str
    """The step as written."""
    make: Callable[[], Procedure]

    @property
    def name(self) -> str:
        """Kind, list and step."""
        return f"{self.kind}: {self.procedure}, step {self.step}: {self.text}"

    @property
    def good(self) -> Good:
        """What it was made from."""
        return good(self.project, self.variant)


@dataclass(frozen=True)
class Good:
    """A demonstration project in one variant, and its lists as replayed."""

    project: Project
    system: System
    lists: tuple[Listing, ...]
    chain: Chain

    def run_of(self, name: str) -> Run:
        """Return the replay of one list."""
        return next(run for run in self.chain.runs if run.listing.name == name)


@cache
def _loaded(name: str) -> Project:
    return load(PROJECTS / name, None)


@cache
def good(name: str, variant: Variant = EVERYTHING) -> Good:
    """Make a variant of a demonstration project."""
    project = _loaded(name)
    assert project.rigging is not None
    battery = variant.battery or project.battery.heaviest
    system = System(project.rigging, project.aircraft, project.battery, variant.left_out, battery)
    lists = tuple(
        listing(stem, _reduced(one, variant.left_out, battery), (), project.rigging.people)
        for stem, one in project.procedures.items()
        if one.starts_from
    )
    lists = tuple(one for one in lists if one.steps)
    return Good(project, system, lists, chain(system, lists))


def _reduced(procedure: Procedure, left_out: frozenset[str], battery: str) -> Procedure:
    """Leave the steps of a variant, without what they depend on."""
    free = {"option": None, "without": None, "for_battery": []}
    sections = [
        section.model_copy(
            update={
                "steps": [
                    one.model_copy(update=free) for one in section.steps if one.applies(left_out, battery)
                ]
            }
        )
        for section in procedure.sections
    ]
    return procedure.model_copy(update={"sections": sections})


def all_variants(name: str) -> tuple[Variant, ...]:
    """List every variant of a project: each set of optional items with each battery, those of the serials
    among them."""
    project = _loaded(name)
    assert project.rigging is not None
    named = mentioned(project.procedures.values(), project.rigging)
    own = [
        frozenset(map(str, replayed(record, project.battery.options, date.max).left_out)) & named
        for record in project.serials.values()
    ]
    sets = [*own, *variants((), named).left_out]
    return tuple(dict.fromkeys(Variant(out, battery) for out in sets for battery in batteries(project, None)))


def caught_by(mutant: Mutant) -> Fault | None:
    """Return the first fault that the verifier finds, None if the mutant survives."""
    base = mutant.good
    spoiled = listing(mutant.procedure, mutant.make(), (), base.system.rigging.people)
    before = base.run_of(mutant.procedure)
    run = replay(base.system, spoiled, before.start)
    checked = chain_of(
        *(rule(run) for rule in RUN_RULES),
        *(rule(spoiled, base.system) for rule in (*WORD_RULES, *MODEL_RULES)),
        *(rule(spoiled) for rule in TEXT_RULES),
    )
    for fault in checked:
        return fault
    lists = [spoiled if one.name == mutant.procedure else one for one in base.lists]
    for fault in preflight_covers(base.system, lists):
        return fault
    if next(differences(before.end, run.end), None) is None and _known(before.end, run.end):
        # the lists behind this one start as before; those that turn round at a stop meet the spoiled one
        if spoiled.procedure.kind not in ("rigging", "de-rigging") or mutant.kind in ONLY_WORDS:
            return None
        runs = tuple(run if one.listing.name == mutant.procedure else one for one in base.chain.runs)
        return next(stop_faults(replace(base.chain, runs=runs)), None)
    return next(faults(chain(base.system, lists)), None)


def _known(before: State, after: State) -> bool:
    """Whether the same joints have the same facts: checks are facts too, and later lists rely on them."""
    return all(joint.facts == after.joints[name].facts for name, joint in before.joints.items())


def mutants(name: str, variant: Variant = EVERYTHING) -> Iterator[Mutant]:
    """Make every mutant of a variant of a demonstration project."""
    base = good(name, variant)
    other = _other_side(base.system)
    for one in base.lists:
        run = base.run_of(one.name)
        for index, step in enumerate(one.steps):
            made = (
                *_spoiled(one.procedure, index, step, other, frozenset(base.system.parts)),
                *((kind, _with(one.procedure, index, [step_])) for kind, step_ in spoiled_words(step, other)),
                *(
                    (kind, _with(one.procedure, index, [step_]))
                    for kind, step_ in weakened(step, base.system)
                ),
                *_by_the_holder(run, index, step),
            )
            about = (one.name, step.number, str(step.written.do))
            for kind, spoiled in made:
                yield Mutant(name, variant, kind, *about, partial(_same, spoiled))
            for kind, strays in stray_steps(run, step):
                yield Mutant(name, variant, kind, *about, partial(_with, one.procedure, index, strays))
            for to in range(len(one.steps)):
                if abs(to - index) > 1:
                    yield Mutant(name, variant, MOVED, *about, partial(_moved, one.procedure, index, to))


def _same(procedure: Procedure) -> Procedure:
    return procedure


def _moved(procedure: Procedure, index: int, to: int) -> Procedure:
    """Move a step with its boxes to another place of the list."""
    flat = [one for section in procedure.sections for one in section.steps]
    if to < index:
        return _with(_with(procedure, index, []), to, [flat[index], flat[to]])
    return _with(_with(procedure, to, [flat[to], flat[index]]), index, [])


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
