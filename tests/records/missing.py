"""What a whole record still lacks, by step: `python -m tests.records.missing FILE`."""

import json
import sys
from pathlib import Path

from checks.engine import judge
from checks.judge import normalise
from checks.procedure import load


def missing(path: Path) -> list[str]:
    """A line for each step that is not done and passed: its verdict, and the entries that it waits for."""
    document = json.loads(path.read_text(encoding="utf-8"))
    procedure = load(document["procedure"])
    steps = judge(procedure, normalise(document["case"], procedure))["steps"]
    return [
        f"{name}: {step['verdict']}, {step['state']} {', '.join(step['missing'])}".rstrip()
        for name, step in steps.items()
        if step["applies"] is not False and (step["verdict"], step["state"]) != ("pass", "done")
    ]


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: python -m tests.records.missing FILE")
    print("\n".join(missing(Path(sys.argv[1]))))
