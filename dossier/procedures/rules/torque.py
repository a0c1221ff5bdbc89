"""Is a joint tightened by a torque that its thread and nut bear?"""

from __future__ import annotations

import math
from collections.abc import Iterator

from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Moment, Run
from dossier.procedures.torque_table import INCH_POUND, TABLE

_HAIR = 1e-9  # relative: binary numbers do not hold 35 in-lb ± 5 in-lb exactly


def in_range(run: Run) -> Iterator[Fault]:
    """A torque after the table lies inside the table's range for thread and nut, with the nut's drag added.

    Source: AC 43.13-1B, table 7-1 and paragraph 7-40 d to g.
    """
    for moment in run.of("torque"):
        for words, remedy in _wrong(moment, run):
            yield at_step(run, "V080", moment.doing.step, (words, remedy), (moment.name,))


def _wrong(moment: Moment, run: Run) -> Iterator[tuple[str, str]]:
    fastening, torque = run.system.connections[moment.name].fastening, moment.doing.step.written.torque
    called = run.system.called(moment.name)
    if fastening is None or torque is None:
        yield (
            f"the {called} is tightened, and no torque is written",
            "write torque with value, fastener and source",
        )
        return
    if fastening.figure == "maker":
        return
    row = TABLE.get(str(fastening.thread))
    if row is None:
        yield (
            f"the table has no row for the thread {str(fastening.thread)!r}",
            f"write one of {', '.join(TABLE)}, or figure: maker with the maker's torque",
        )
        return
    drag = fastening.drag.value if fastening.drag else 0.0
    low, high = (bound + drag for bound in row.range_of(fastening.nut))
    half = torque.value.standard_uncertainty * math.sqrt(
        3
    )  # "(limits)": bounds of a rectangular distribution, JCGM 100, 4.3.7
    least, most = torque.value.value - half, torque.value.value + half
    if least < low * (1 - _HAIR) or most > high * (1 + _HAIR):
        said = (
            f"{least / INCH_POUND:.0f}"
            if not half
            else f"{least / INCH_POUND:.0f} to {most / INCH_POUND:.0f}"
        )
        words = (
            f"the {called} is tightened to {said} in-lb; the table has {low / INCH_POUND:.0f} to "
            f"{high / INCH_POUND:.0f} in-lb for {fastening.thread} and this nut"
        )
        yield words, "correct the torque, or write figure: maker with the maker's torque"


def nut_suits(run: Run) -> Iterator[Fault]:
    """Where bolt or nut turns in service, the nut is not self-locking.

    Source: AC 43.13-1B, paragraph 7-64 a, as quoted.
    """
    for moment in run.of("torque", "lock", "engage"):
        fastening = run.system.connections[moment.name].fastening
        if (
            fastening is not None
            and fastening.rotates
            and fastening.nut.endswith("self-locking")
            and moment.verb == "engage"
        ):
            words = f"the {run.system.called(moment.name)} turns in service and has a self-locking nut"
            yield at_step(
                run,
                "V081",
                moment.doing.step,
                (words, "use a drilled bolt, a castle nut and a split pin"),
                (moment.name,),
            )
