"""The Jinja environment. Templates place, they do not think.

Text of a record is untrusted. It goes into HTML blocks, where it is escaped and Markdown never looks, or
through the ``heading`` filter into a heading. Templates are the project's own; text of a record is never
compiled as one.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from dossier.places import site_templates


@lru_cache(maxsize=1)
def environment() -> Environment:
    """Return the environment, made once: compiling templates costs more than filling them."""
    made = Environment(
        loader=FileSystemLoader(site_templates() / "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters["heading"] = heading
    made.filters["place"] = place
    return made


def render(template: str, **context: Any) -> str:
    """Fill one template of ``site_templates/pages``.

    Args:
        template: such as ``battery.md.jinja``.
        context: ready strings and values for placing; a name that the template asks for and that is missing
            is an error.
    """
    return environment().get_template(template).render(**context)


def heading(text: str) -> Markup:
    """Make a record's text fit for a Markdown heading: every sign that could mean something to
    Markdown is escaped.

    Only signs that Markdown takes a backslash before: it would print the backslash before any other.
    """
    one_line = " ".join(str(text).split())
    return Markup(re.sub(r"([\\`*_{}\[\]()#+\-.!|])", r"\\\1", str(escape(one_line))))


def place(text: str) -> Markup:
    """Print a line of a file so that a narrow column breaks it after a slash and nowhere else."""
    return Markup('<span class="place">{}</span>').format(
        Markup("/<wbr>").join(escape(part) for part in str(text).split("/"))
    )
