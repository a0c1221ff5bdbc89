"""What the verifier says of one procedure in one variant."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.procedures.fault import Fault

NOT_PROVED = (
    "That anybody did a step.",
    "That a joint which is recorded as closed has closed.",
    "That the model of the aircraft lists every joint: compare it with the parts list and the drawings.",
    "That whoever checks has looked.",
    "That wear, play and damage are within limits.",
    "That the list suits an aircraft that was changed after the date of this dossier.",
)
"""Sentences that stand under every report. Reading a list step by step proves that the list is right in
itself, and nothing else."""


@dataclass(frozen=True)
class ProcedureReport:
    """The result for one procedure and one set of optional items."""

    procedure: str
    """The file without its ending."""
    title: str
    variant: tuple[str, ...]
    """Optional items, among those that procedures mention, that this variant has."""
    battery: str
    """The option of battery.yaml that it has in its bay."""
    own: bool
    """True for the variant that this serial is."""
    starts_from: str
    """Words for the state in which the list starts; empty for a list that was not replayed."""
    ends_in: str
    steps: int
    steps_without_act: int
    """Steps that the verifier could not judge: nothing in rigging.yaml corresponds to them."""
    checks: tuple[str, ...]
    """Names of the checks of a replay; empty for a list that was only read."""
    faults: tuple[Fault, ...]
    read_only: tuple[str, ...] = ()
    """Names of the checks of the words alone, for a list that was only read."""
    together: int = 0
    """Steps that say under ``together`` why they have two actions, which lets that note rest."""
    differs: int = 0
    """Steps that say under ``differs`` why their words are not their acts, which lets those checks rest."""
    not_proved: tuple[str, ...] = NOT_PROVED

    @property
    def is_ready(self) -> bool:
        """Whether the list may be worked from: it was replayed, and no fault of safety was found."""
        return bool(self.checks) and not any(fault.is_of_safety for fault in self.faults)
