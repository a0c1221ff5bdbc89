"""``python -m dossier``: the command, where its script is not on the path."""

from dossier.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
