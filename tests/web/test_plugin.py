"""Plain ``mkdocs``: the plugin makes its own packet."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from dossier.findings import Finding, Place, Rejected
from dossier.places import base_configuration

PLACE = Place("w.yaml", 12, 14, "", "  reading: 46.2")
FINDING = Finding("Q03", "the reading <has> no unit", '"46.2 kg"', PLACE)
OPTIONS = {"project": "projects/none-such", "serial": "0012", "as_of": "2026-05-14"}


def configuration(site: Path):
    file = str(base_configuration())
    plugins = {"dossier": OPTIONS, "material/search": {}, "material/offline": {}}
    return load_config(file, config_file_path=file, site_dir=str(site), plugins=plugins)


def run(site: Path, command: str) -> None:
    config = configuration(site)
    config.plugins.on_startup(command=command, dirty=False)
    build(config)


def refuse(*_):
    raise Rejected([FINDING])


def test_the_plugin_asks_the_pipeline_for_what_its_options_say(packet_of, pipeline, tmp_path):
    asked = []
    pipeline.packet_for = lambda *question: asked.append(question) or packet_of()
    run(tmp_path / "site", "build")
    assert asked == [(base_configuration().parent / "projects/none-such", "0012", date(2026, 5, 14))]
    assert "Sample &lt;Wren&gt;" in (tmp_path / "site" / "index.html").read_text()


def test_a_refused_record_becomes_a_page_of_findings_while_serving(pipeline, tmp_path):
    pipeline.packet_for = refuse
    run(tmp_path / "site", "serve")
    html = (tmp_path / "site" / "index.html").read_text()
    assert "w.yaml:12:14: Q03 the reading &lt;has&gt; no unit" in html
    assert "Refused: 1 problem in the record" in html


def test_a_refused_record_is_an_error_in_a_build(pipeline, tmp_path, caplog):
    pipeline.packet_for = refuse
    with pytest.raises(Abort):
        run(tmp_path / "site", "build")
    assert str(FINDING) in caplog.text
    assert not (tmp_path / "site").exists()


def test_serving_goes_on_when_the_record_is_mended(packet_of, pipeline, tmp_path):
    pipeline.packet_for = refuse
    run(tmp_path / "site", "serve")
    pipeline.packet_for = lambda *_: packet_of()
    build(configuration(tmp_path / "site"))
    assert "Sample &lt;Wren&gt;" in (tmp_path / "site" / "index.html").read_text()


def test_the_project_is_watched_while_serving(packet_of, pipeline, tmp_path):
    class Server:
        watched: list[str] = []  # noqa: RUF012 - one test, one server

        def watch(self, path: str) -> None:
            self.watched.append(path)

    pipeline.packet_for = lambda *_: packet_of()
    config = configuration(tmp_path / "site")
    config.plugins.on_serve(Server(), config=config, builder=None)
    assert Server.watched == [str(base_configuration().parent / "projects/none-such")]
