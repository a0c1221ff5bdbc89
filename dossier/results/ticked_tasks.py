"""Lists of maintenance tasks that were ticked: a tick moves no task, whoever may release the work does."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.model.events import Inspection, ListCompleted
from dossier.model.maintenance import Maintenance
from dossier.replay import State


def ticked_tasks(maintenance: Maintenance, state: State) -> Iterator[Finding]:
    """Tell each task whose list was ticked whole after the task was last done.

    A list is ticked by whoever holds the device; that a task is done, a person of its level signs (common
    practice, no source).
    """
    for name, task in maintenance.tasks.items():
        if task.every.before_flight is not None:
            continue  # whoever flies makes it, and its list is its record
        ticked = [
            event
            for event in state.of_kind(ListCompleted)
            if task.procedure is not None and event.procedure == task.procedure and not event.steps_open
        ]
        done = [event.date for event in state.of_kind(Inspection) if name in event.tasks]
        if ticked and (not done or ticked[-1].date > max(done)):
            yield Finding(
                "S006",
                f"the list of {str(task.name)!r} was ticked whole on {ticked[-1].date}, and no inspection "
                "event says that the task was done",
                f"whoever may release it adds an inspection event with  tasks: [{name}]; until then it stays "
                "due",
                ticked[-1].place_of_key("procedure"),
                Severity.NOTE,
            )
