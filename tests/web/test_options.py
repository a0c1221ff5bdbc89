from __future__ import annotations

from datetime import date

import pytest
from mkdocs.exceptions import PluginError

from dossier.web.options import Choice, DossierOptions, chosen


@pytest.fixture
def configuration(tmp_path, monkeypatch):
    for name in ("DOSSIER_PROJECT", "DOSSIER_SERIAL", "DOSSIER_AS_OF"):
        monkeypatch.delenv(name, raising=False)
    return str(tmp_path / "mkdocs.yml")


def options(**values):
    made = DossierOptions()
    made.load_dict(values)
    assert made.validate() == ([], [])
    return made


def test_options_left_out_mean_first_project_first_serial_and_last_event(configuration, tmp_path):
    for name in ("wren", "finch"):
        (tmp_path / "projects" / name).mkdir(parents=True)
    assert chosen(options(), configuration) == Choice(tmp_path / "projects" / "finch", None, None)


def test_options_are_taken_as_written(configuration, tmp_path):
    choice = chosen(options(project="p", serial="0012", as_of="2026-05-14"), configuration)
    assert choice == Choice(tmp_path / "p", "0012", date(2026, 5, 14))


def test_a_date_that_yaml_has_already_read_is_taken(configuration):
    assert chosen(options(project="p", as_of=date(2026, 5, 14)), configuration).as_of == date(2026, 5, 14)


def test_the_environment_goes_before_the_file_and_keeps_leading_noughts(configuration, monkeypatch):
    monkeypatch.setenv("DOSSIER_SERIAL", "0013")
    assert chosen(options(project="p", serial="0012"), configuration).serial == "0013"


def test_a_serial_number_that_yaml_would_read_as_a_number_is_refused():
    made = DossierOptions()
    made.load_dict({"serial": 10})
    errors, _ = made.validate()
    assert [name for name, _ in errors] == ["serial"]


def test_a_date_that_is_none_is_refused_with_a_right_one(configuration):
    with pytest.raises(PluginError, match=r"as_of: '14\.5\.' is not a date; write it as 2026-05-14"):
        chosen(options(project="p", as_of="14.5."), configuration)


def test_no_project_at_all_is_refused(configuration):
    with pytest.raises(PluginError, match="no project: projects holds none"):
        chosen(options(), configuration)
