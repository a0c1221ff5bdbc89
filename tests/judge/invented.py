"""An invented serial as the judge sees it, written in a few lines of YAML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import yaml

from dossier.compute import performance
from dossier.figures import Figure, evaluate, given
from dossier.judge.claims import Claims, judge_claims
from dossier.judge.evidence import Allowance
from dossier.judge.rule_sets import known_rule_sets
from dossier.judge.verdict import Judgement, Verdict
from dossier.judge.verdicts import judge_all
from dossier.model.base import Part
from dossier.model.compliance import Compliance
from dossier.model.rule_set import RuleSet
from dossier.model.validation import validate
from dossier.quantities import Quantity, parse
from dossier.read.yaml_text import read_yaml
from dossier.units import KINDS

PartType = TypeVar("PartType", bound=Part)


def quantity(text: str) -> Quantity:
    """Read a quantity of the first kind that takes it."""
    unit = text.split("±")[0].split(" ", 1)[1].strip()
    kind = next(kind for kind in KINDS.values() if unit in kind.spellings)
    return parse(text, kind.name)


def figure(name: str, text: str) -> Figure:
    """Make a figure that is what the text says."""
    value = quantity(text)
    return evaluate(
        performance.as_stated, name, name.replace("_", " "), value.kind, {"y": given(value, name)}
    )


def read(path: Path, shown_as: str, model: type[PartType]) -> PartType:
    return validate(model, read_yaml(path, shown_as))


@dataclass(frozen=True)
class Serial:
    """What an invented serial shows."""

    figures: Mapping[str, str] = field(default_factory=dict)
    measured_on: Mapping[str, str] = field(default_factory=dict)
    bases: Mapping[str, str] = field(default_factory=dict)
    allowances: Mapping[str, list[str]] = field(default_factory=dict)
    as_of: str = "2026-06-01"
    batteries: Mapping[str, str] = field(default_factory=dict)
    """Key of each battery that the type may carry -> what it is called."""

    @classmethod
    def of(cls, path: Path) -> Serial:
        """Read a serial from YAML, every scalar as text."""
        return cls(**(yaml.load(path.read_text("utf-8"), yaml.BaseLoader) or {}))

    @property
    def made(self) -> dict[str, Figure]:
        return {name: figure(name, text) for name, text in self.figures.items()}

    @property
    def fitted(self) -> dict[str, tuple[Allowance, ...]]:
        return {
            kind: tuple(
                Allowance(kind, given(parse(text, "mass"), kind), is_of_piece="±" in text) for text in masses
            )
            for kind, masses in self.allowances.items()
        }

    def judged(self, compliance: Compliance, rule_sets: Mapping[str, RuleSet] | None = None) -> Judgement:
        days = {name: date.fromisoformat(day) for name, day in self.measured_on.items()}
        known = rule_sets or known_rule_sets()
        as_of = date.fromisoformat(self.as_of)
        return judge_all(
            compliance, known, self.made, days, self.bases, self.fitted, as_of, batteries=self.batteries
        )

    def claims(self, compliance: Compliance) -> Claims:
        return judge_claims(compliance, self.made)


FACTS: dict[str, str] = {
    "occupants": "1",
    "purpose": "recreation",
    "airworthiness_certificate": "none",
    "powered": "yes",
    "liquid_fuel": "no",
    "landing": "land",
    "parachute": "airframe",
    "permit_before_2003": "no",
    "part_21": "no",
    "category": "aeroplane",
    "seats": "1",
    "privately_built": "yes",
    "first_registered": "2026-05-01",
}
GOOD = {
    "figures": {
        "empty_mass": "250 lb ± 1 lb",
        "empty_mass.without_battery": "205 lb ± 1 lb",
        "maximum_take_off_mass": "230 kg",
        "useful_load": "115 kg ± 0.5 kg",
        "wing_loading": "17 kg/m²",
        "stall_speed": "22 kt ± 1 kt",
        "maximum_level_speed": "50 kt ± 2 kt",
        "maximum_power": "20 kW",
    },
    "measured_on": {
        "empty_mass": "2026-04-02",
        "empty_mass.without_battery": "2026-04-02",
        "useful_load": "2026-04-02",
        "stall_speed": "2026-05-03",
        "maximum_level_speed": "2026-05-03",
    },
    "bases": {"stall_speed": "CAS", "maximum_level_speed": "CAS"},
}
"""A serial that conforms to most of what it is asked."""


def serial(**changes: Any) -> Serial:
    """Return the good serial with some entries replaced; an entry of nothing takes it away."""
    merged: dict[str, Any] = {}
    for key in ("figures", "measured_on", "bases"):
        both = {**GOOD[key], **changes.pop(key, {})}
        merged[key] = {name: value for name, value in both.items() if value}
    return Serial(**merged, **changes)


def compliance(
    folder: Path, rule_set: str, *, rule: str = "guarded", more: str = "", claims: str = "", **facts: str
) -> Compliance:
    """Write and read a compliance file that relies on one rule set."""
    declared = {**FACTS, **facts}
    lines = [
        f'  {name}: {{value: "{value}", ground: drawing 1}}' for name, value in declared.items() if value
    ]
    text = "\n".join(
        [
            "decision_rules:",
            "  guarded: {kind: guarded, coverage: 95 %, agreed: 2026-01-10, agreed_by: the builder}",
            "  simple: {kind: simple, agreed: 2026-01-10, agreed_by: the builder}",
            "  late: {kind: guarded, coverage: 95 %, agreed: 2026-05-20, agreed_by: the builder}",
            f"usual_decision_rule: {rule}",
            "relies_on:",
            f"  - rule_set: {rule_set}",
            "    because: it is flown there",
            *([f"    {line}" for line in more.splitlines()]),
            "declared:",
            *lines,
            *(["claims:", claims] if claims else []),
        ]
    )
    path = folder / "compliance.yaml"
    path.write_text(text + "\n", "utf-8")
    return read(path, "compliance.yaml", Compliance)


def verdict(judgement: Judgement, requirement: str) -> Verdict:
    """Return one verdict by the last part of its name."""
    return next(one for one in judgement.verdicts if one.requirement.endswith(f"/{requirement}"))


def e_1(judged: Any, mass: str, **changes: Any) -> Verdict:
    """Judge an empty mass by 14 CFR 103.1(e)(1)."""
    allowances = changes.pop("allowances", {})
    one = serial(figures={"empty_mass": mass}, allowances=allowances)
    return verdict(judged("us-14-cfr-103", one, **changes), "e-1")
