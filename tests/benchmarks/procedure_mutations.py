"""Print how many spoiled lists the verifier notices, of each kind: ``PYTHONPATH=tests python
tests/benchmarks/procedure_mutations.py [MOST]``, where MOST is how many of a kind are tried in a project."""

from __future__ import annotations

import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from procedures.mutants import DEMOS
from procedures.mutation_run import MOST, Outcome, outcome


def main() -> int:
    """Run the sampled mutants of both demonstration projects, each in a process of its own."""
    start = time.perf_counter()
    most = int(sys.argv[1]) if len(sys.argv) > 1 else MOST
    with ProcessPoolExecutor(len(DEMOS)) as pool:
        done = list(pool.map(partial(outcome, most=most), DEMOS))
    _table(done)
    unexplained = _survivors(done)
    _say(f"\n{time.perf_counter() - start:.1f} s")
    return 1 if unexplained else 0


def _table(done: list[Outcome]) -> None:
    there, tried, caught, good = (
        sum((getattr(one, key) for one in done), Counter()) for key in Outcome.COUNTS
    )
    _say(f"{'kind':28}{'caught':>8}{'tried':>7}{'share':>8}{'as good':>9}{'there are':>11}")
    for kind in there:
        share = f"{caught[kind] / tried[kind]:8.1%}"
        _say(f"{kind:28}{caught[kind]:8}{tried[kind]:7}{share}{good[kind]:9}{there[kind]:11}")
    total, whole = tried.total(), there.total()
    _say(f"{'all':28}{caught.total():8}{total:7}{caught.total() / total:8.1%}{good.total():9}{whole:11}")
    matters = total - good.total()
    _say(f"{'of those that spoil something':28}{caught.total():8}{matters:7}{caught.total() / matters:8.1%}")
    _say(f"variants: {', '.join(f'{one.project} {one.variants}' for one in done)}")


def _survivors(done: list[Outcome]) -> int:
    """Print each reason with its number, then every survivor by name under what it shows."""
    _say("\nwhat was not noticed, and why")
    reasons = Counter(reason for one in done for _, reason in one.survivors)
    for reason, number in reasons.most_common():
        _say(f"{number:6}  {reason}")
    _say("\nevery survivor")
    for one in done:
        for name, reason in one.survivors:
            _say(f"{one.project}: {name}  [{reason}]")
    return sum(reason.startswith("UNEXPLAINED") for reason in reasons.elements())


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")


if __name__ == "__main__":
    sys.exit(main())
