"""Print how many spoiled lists the verifier notices, of each kind: ``PYTHONPATH=tests python
tests/benchmarks/procedure_mutations.py``."""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from procedures.mutants import DEMOS, caught_by, mutants
from procedures.survivors import EQUIVALENT, WEAKNESSES, explanation


def main() -> int:
    """Run every mutant of both demonstration projects."""
    start = time.perf_counter()
    total: Counter[str] = Counter()
    caught: Counter[str] = Counter()
    reasons: Counter[str] = Counter()
    unexplained = []
    for project in DEMOS:
        for mutant in mutants(project):
            total[mutant.kind] += 1
            if caught_by(mutant) is not None:
                caught[mutant.kind] += 1
                continue
            key, reason = (mutant.kind, mutant.text), explanation(mutant)
            group = (
                "a named weakness"
                if key in WEAKNESSES
                else "as good, by name"
                if key in EQUIVALENT
                else reason
            )
            reasons[group or "UNEXPLAINED"] += 1
            unexplained += [] if reason else [mutant.name]
    _say(f"{'kind':28}{'caught':>8}{'of':>6}{'share':>8}")
    for kind, number in total.items():
        _say(f"{kind:28}{caught[kind]:8}{number:6}{caught[kind] / number:8.0%}")
    _say(f"{'all':28}{caught.total():8}{total.total():6}{caught.total() / total.total():8.0%}")
    as_good = sum(
        number for reason, number in reasons.items() if reason not in ("a named weakness", "UNEXPLAINED")
    )
    matters = total.total() - as_good
    _say(f"{'of those that spoil something':28}{caught.total():8}{matters:6}{caught.total() / matters:8.1%}")
    _say("\nwhat was not noticed, and why")
    for reason, number in reasons.most_common():
        _say(f"{number:6}  {reason}")
    _say(f"\n{time.perf_counter() - start:.1f} s")
    _say("\n".join(unexplained))
    return 1 if unexplained else 0


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")


if __name__ == "__main__":
    sys.exit(main())
