"""The named checks. Each is a function from a replay to the faults that it finds; its docstring names its
source."""
