"""Where the files that stand beside the code are, in a source tree and in an installed wheel alike."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _home() -> Path:
    """Find the folder that holds ``mkdocs.yml`` and ``site_templates``: a wheel has both in the package."""
    for folder in (_PACKAGE, _PACKAGE.parent):
        if (folder / "mkdocs.yml").is_file() and (folder / "site_templates").is_dir():
            return folder
    raise FileNotFoundError(f"neither {_PACKAGE} nor its parent holds mkdocs.yml and site_templates")


def site_templates() -> Path:
    """Folder of the page templates, the theme's overrides and the stylesheet."""
    return _home() / "site_templates"


def base_configuration() -> Path:
    """The site configuration that every serial's site starts from."""
    return _home() / "mkdocs.yml"
