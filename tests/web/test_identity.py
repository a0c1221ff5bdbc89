from __future__ import annotations

import pytest

from dossier.web.identity import css_string


def test_nothing_in_a_name_can_end_the_string_or_the_style():
    assert css_string('a"</style>\\') == '"a\\22 \\3c \\2f style\\3e \\5c "'


@pytest.mark.parametrize("text", ["Élan", "×", "\n", "飛"])
def test_signs_beyond_letters_and_digits_are_written_by_their_number(text):
    assert f"\\{ord(text[0]):x} " in css_string(text)
