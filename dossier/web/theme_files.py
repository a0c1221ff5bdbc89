"""Which of the theme's files a site needs. The theme brings ten times more, and every packet pays for it."""

from __future__ import annotations

import re
from fnmatch import fnmatch
from importlib.metadata import distribution

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

_NEEDED = (
    "assets/javascripts/bundle.*.js",
    "assets/javascripts/workers/search.*.js",
)
_NEEDED_FOR_OTHER_LANGUAGES = "assets/javascripts/lunr/*.js"
_SOURCE_MAP = re.compile(r"//# sourceMappingURL=\S+\n?")
_FOREIGN_SCRIPT = re.compile(r"https://unpkg\.com/[\w@./-]+")


def keep_needed(files: Files, config: MkDocsConfig) -> None:
    """Leave out source maps, sitemap, stylesheets (ours stands alone), word lists; add the licence."""
    own = (config.docs_dir, config.theme.custom_dir)
    for file in list(files):
        if file.generated_by is not None or file.src_dir in own:
            continue
        if not _is_needed(file.src_uri, config.theme["language"]):
            files.remove(file)
        else:
            _keep_inside(file)
    files.append(_licence(config))


def _is_needed(path: str, language: str) -> bool:
    if language != "en" and fnmatch(path, _NEEDED_FOR_OTHER_LANGUAGES):
        return True
    return any(fnmatch(path, pattern) for pattern in _NEEDED)


def _keep_inside(file: File) -> None:
    """Drop what a script would fetch in rare cases.

    From a public host: a drawing program for diagrams, a substitute for what browsers of 2019 lacked. From
    beside it: its map, once somebody opens the console.
    """
    text = _SOURCE_MAP.sub("", file.content_string)
    file.content_string = _FOREIGN_SCRIPT.sub("data:text/javascript,", text)


def _licence(config: MkDocsConfig) -> File:
    text = distribution("mkdocs-material").read_text("licenses/LICENSE")
    if text is None:
        raise FileNotFoundError("the installed theme has no licence text, which every packet must hand on")
    return File.generated(
        config, "assets/licences/mkdocs-material.txt", content=text, inclusion=InclusionLevel.INCLUDED
    )
