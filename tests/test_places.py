from __future__ import annotations

import pytest

from dossier import places


def test_in_the_source_tree_the_files_stand_beside_the_package():
    assert (places.site_templates() / "theme" / "main.html").is_file()
    assert places.base_configuration().name == "mkdocs.yml"


def test_in_a_wheel_the_files_stand_in_the_package(tmp_path, monkeypatch):
    monkeypatch.setattr(places, "_PACKAGE", tmp_path)
    (tmp_path / "site_templates").mkdir()
    (tmp_path / "mkdocs.yml").touch()
    assert (places.site_templates(), places.base_configuration()) == (
        tmp_path / "site_templates",
        tmp_path / "mkdocs.yml",
    )


def test_a_package_without_its_files_is_an_error_that_says_where_they_were_sought(tmp_path, monkeypatch):
    monkeypatch.setattr(places, "_PACKAGE", tmp_path / "dossier")
    with pytest.raises(FileNotFoundError, match=r"holds mkdocs\.yml and site_templates"):
        places.site_templates()
