"""Arguments in, exit code out. The only place that prints."""

from __future__ import annotations

import argparse
import codecs
import io
import json
import os
import sys
from collections.abc import Sequence
from datetime import date
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING

from dossier import __version__
from dossier.findings import Finding, Rejected, Severity

if TYPE_CHECKING:
    from dossier.dossier import Dossier

CONFORMS, OPEN, WRONG = 0, 1, 2
"""Exit codes: all is well; ``check`` found something that keeps a serial from delivery, see
:data:`OPEN_MEANS`; the record or the call is wrong."""
OPEN_MEANS = (
    "exit 1 while a requirement does not conform, is inconclusive or is not shown, or open work or a wrong "
    "list keeps a serial "
    "from delivery; claims, inspections and what is overdue are printed and do not count"
)

PLAINLY = {
    "±": "+/-", "°": "deg ", "²": "2", "³": "3", "·": "*", "×": "x", "−": "-", "–": "-", "≤": "<=", "≥": ">=",
    "“": '"', "”": '"', "‘": "'", "’": "'", "…": "...", "→": "->", "µ": "u", "Ω": "ohm",
    "α": "alpha", "Δ": "Delta", "ϵ": "epsilon", "η": "eta", "π": "pi", "ρ": "rho", "σ": "sigma",
    "∑": "sum", "∏": "product", "∫": "integral", "√": "sqrt",
}  # fmt: skip
"""What stands for a sign on a terminal that does not have it; of any other sign, its number is shown."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    _print_on_any_terminal()
    options = _parsed(arguments)
    try:
        code = int(options.run(options))
        sys.stdout.flush()
    except Rejected as rejected:
        _print_findings(rejected.findings)
        _say(
            f"{len(rejected.findings)} problem{'s' if len(rejected.findings) != 1 else ''}; nothing was "
            "written"
        )
        return WRONG
    except BrokenPipeError:  # as of  dossier explain PROJECT | head:  the reader has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return WRONG
    except OSError as error:
        _say(f"{error.filename or 'the file system'}: {error.strerror or error}")
        return WRONG
    except KeyboardInterrupt:
        _say("stopped")
        return WRONG
    return code


def _print_on_any_terminal() -> None:
    """Print on a terminal without ± and its like as well, and lose nothing."""
    codecs.register_error("dossier", _plainly)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="dossier")


def _plainly(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    return "".join(PLAINLY.get(sign) or ascii(sign)[1:-1] for sign in signs), error.end


def _parsed(arguments: Sequence[str] | None) -> argparse.Namespace:
    """Read the call. Argparse takes an optional word for missing as soon as an option stands before it, so
    that word is put back."""
    parser = _parser()
    options, left = parser.parse_known_args(arguments)
    if left and not left[0].startswith("-") and getattr(options, "figure", "") is None:
        options.figure = left.pop(0)
    if left:
        parser.error(f"unrecognized arguments: {' '.join(left)}")
    return options


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="dossier",
        description="A conformity dossier per serial number, computed from the builder's own records.",
        epilog="Exit codes: 0, done; 1, check found what keeps a serial from delivery; "
        "2, the record or the call is wrong.",
    )
    parser.add_argument("--version", action="version", version=f"dossier {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    build = _command(commands, "build", _build, "write the site and results.json of each serial")
    _serials(build)
    build.add_argument("--out", type=Path, help="output folder (default: build/ and the name of the project)")
    check = _command(commands, "check", _check, f"do everything but write; {OPEN_MEANS}")
    _serials(check)
    serve = _command(
        commands, "serve", _serve, "show one serial in the browser and follow changes of its files"
    )
    serve.add_argument("--serial", metavar="SN", help="the serial to show (default: the first)")
    serve.add_argument("--as-of", type=_date, metavar="DATE", help="the state on that date")
    where = "where to listen (default: %(default)s)"
    serve.add_argument("--address", type=_address, default="127.0.0.1:8000", help=where)
    explain = _command(commands, "explain", _explain, "print the working of one figure")
    explain.add_argument("figure", nargs="?", help="name of the figure; without it all names are listed")
    explain.add_argument("--serial", metavar="SN", help="the serial (default: the first)")
    explain.add_argument("--as-of", type=_date, metavar="DATE", help="the state on that date")
    add = _command(
        commands, "add-record", _add_record, "take a list that was ticked on a device into a serial's record"
    )
    add.add_argument("serial", metavar="SERIAL", help="the serial number")
    add.add_argument(
        "file", type=Path, metavar="FILE", help="the record file that the page of the list saved"
    )
    schema = commands.add_parser("schema", help="write a JSON Schema for each kind of file, for editors")
    schema.add_argument(
        "--out", type=Path, default=Path("schemas"), help="output folder (default: %(default)s)"
    )
    schema.set_defaults(run=_schema)
    start = commands.add_parser("start", help="write a small project to begin with")
    start.add_argument("folder", type=Path, help="a folder that does not exist yet")
    start.set_defaults(run=_start)
    return parser


def _command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser], name: str, run: object, words: str
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=words, description=words[0].upper() + words[1:] + ".")
    command.add_argument("project", type=Path, help="the project folder, such as projects/quillet-e1")
    command.set_defaults(run=run)
    return command


def _serials(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--serial",
        action="append",
        metavar="SN",
        help="a serial number; may be given more than once (default: all)",
    )
    command.add_argument(
        "--as-of", type=_date, metavar="DATE", help="the state on that date (default: that of the last event)"
    )


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"{text!r} is not a date; write year-month-day, such as 2026-05-14"
        ) from None


def _address(text: str) -> str:
    host, _, port = text.rpartition(":")
    try:
        ip_address("127.0.0.1" if host == "localhost" else host.removeprefix("[").removesuffix("]"))
        if not (port.isascii() and port.isdecimal() and 0 < int(port) < 65536):
            raise ValueError
    except ValueError:
        what = f"{text!r} is not where one can listen; write address and port, such as 127.0.0.1:8000"
        raise argparse.ArgumentTypeError(what) from None
    return text


def _build(options: argparse.Namespace) -> int:
    from dossier.fleet import make_all
    from dossier.publish import write_all
    from dossier.summary import summary

    dossiers = make_all(options.project, options.serial, options.as_of)
    _print_findings(_card_findings(dossiers))
    out = options.out or Path("build") / options.project.resolve().name
    write_all(dossiers, out, _progress)
    for dossier in dossiers:
        print(summary(dossier))
    print(
        f"written to {out}; open {out / 'index.html'}, or a customer's "
        f"{out / str(dossiers[0].record.serial_number) / 'site' / 'index.html'}"
    )
    return CONFORMS


def _check(options: argparse.Namespace) -> int:
    from dossier.fleet import make_all
    from dossier.summary import is_open, summary

    dossiers = make_all(options.project, options.serial, options.as_of)
    seen: dict[Finding, None] = {}
    for dossier in dossiers:
        seen.update(dict.fromkeys(dossier.findings))
    seen.update(dict.fromkeys(_card_findings(dossiers)))
    _print_findings(sorted(seen, key=lambda finding: finding.sort_key))
    for dossier in dossiers:
        print(summary(dossier))
    return OPEN if any(is_open(dossier) for dossier in dossiers) else CONFORMS


def _card_findings(dossiers: Sequence[Dossier]) -> tuple[Finding, ...]:
    from dossier.compose.operating.cards import findings

    return findings(dossiers)


def _serve(options: argparse.Namespace) -> int:
    from dossier.project import serial_meant
    from dossier.web.serve import serve

    serial_meant(options.project, options.serial)  # a wrong call ends here; a wrong record is shown as a page
    serve(options.project, options.serial, options.as_of, options.address)
    return CONFORMS


def _explain(options: argparse.Namespace) -> int:
    from dossier.compose.sheet_text import as_text
    from dossier.pipeline import run
    from dossier.project import serial_meant
    from dossier.references.names import unknown

    dossier = run(options.project, serial_meant(options.project, options.serial), options.as_of)
    if options.figure is None:
        width = max(map(len, dossier.with_sheets))
        for name, figure in dossier.with_sheets.items():
            print(f"{name:{width}}  {figure.label}")
        return CONFORMS
    problems = tuple(unknown(options.figure, dossier.with_sheets, "figure", "this serial"))
    if problems:
        raise Rejected(problems)
    print(as_text(dossier.with_sheets[options.figure], dossier))
    return CONFORMS


def _add_record(options: argparse.Namespace) -> int:
    from dossier.completed_lists.add import add_record

    for path in add_record(options.project, options.serial, options.file):
        print(path)
    return CONFORMS


def _schema(options: argparse.Namespace) -> int:
    from dossier.schemas import schemas

    options.out.mkdir(parents=True, exist_ok=True)
    for name, schema in schemas().items():
        path = options.out / f"{name}.schema.json"
        path.write_text(json.dumps(schema, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
        print(path)
    return CONFORMS


def _start(options: argparse.Namespace) -> int:
    from dossier.starter import write_starter

    for path in write_starter(options.folder):
        print(path)
    print(f"next: dossier check {options.folder}")
    return CONFORMS


def _print_findings(findings: Sequence[Finding]) -> None:
    for finding in findings:
        mark = "" if finding.severity is Severity.ERROR else f"{finding.severity.value}: "
        print(f"{mark}{finding}\n", file=sys.stderr)


def _progress(serial_number: str, done: int, of: int) -> None:
    if sys.stderr.isatty():
        _say(f"[{done}/{of}] {serial_number}")


def _say(text: str) -> None:
    print(text, file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
