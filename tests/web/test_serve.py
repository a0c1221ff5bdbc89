from __future__ import annotations

from datetime import date

import mkdocs.commands.serve
from mkdocs.config import load_config

from dossier.places import base_configuration
from dossier.web.options import chosen
from dossier.web.serve import serve


def test_serve_hands_its_arguments_to_the_plugin_as_they_are(tmp_path, monkeypatch):
    given = {}
    taken = lambda file, **options: given.update(file=file, **options)  # noqa: E731 - stands for the server
    monkeypatch.setattr(mkdocs.commands.serve, "serve", taken)
    serve(tmp_path, "0012", date(2026, 5, 14), "127.0.0.1:8001")
    config = load_config(given["file"], plugins=given["plugins"], dev_addr=given["dev_addr"])
    choice = chosen(config.plugins["dossier"].config, str(base_configuration()))
    assert (choice.project, choice.serial, choice.as_of) == (tmp_path, "0012", date(2026, 5, 14))
    assert (config.dev_addr.host, config.dev_addr.port) == ("127.0.0.1", 8001)


def test_serve_keeps_the_other_plugins_of_the_base_configuration(tmp_path, monkeypatch):
    given = {}
    monkeypatch.setattr(mkdocs.commands.serve, "serve", lambda _file, **options: given.update(options))
    serve(tmp_path, None, None, "127.0.0.1:8001")
    assert list(given["plugins"]) == ["dossier", "material/search", "material/offline"]
