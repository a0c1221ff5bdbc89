import pytest
from demonstration import SERIALS, demonstration, quillet
from page_reading import Element, plain, read

from dossier.compose.limit_text import LimitText
from dossier.compose.operating import cautions, controls, pages
from dossier.compose.operating.lists import lists


def cautions_page(serial: tuple[str, str]) -> Element:
    dossier = demonstration(*serial)
    return read(cautions.page(dossier, lists(dossier)))


# ANSI Z535.6 as summarised in public: danger "will result in death or serious injury", warning "could
# result in death or serious injury", caution "could result in minor or moderate injury", notice "not
# related to personal injury"
@pytest.mark.parametrize(("word", "says"), [
    ("danger", ("death or serious injury", "will")),
    ("warning", ("death or serious injury", "could")),
    ("caution", ("minor or moderate injury", "could")),
    ("notice", ("damage", "nobody is injured")),
])  # fmt: skip
def test_the_signal_words_are_defined_as_in_product_safety(word, says):
    terms = cautions_page(SERIALS[0]).one("dl")
    meanings = dict(
        zip([dt.text for dt in terms.all("dt")], [dd.text.lower() for dd in terms.all("dd")], strict=True)
    )
    assert all(part in meanings[word.capitalize()] for part in says)


@pytest.mark.parametrize("serial", SERIALS)
def test_every_hazard_is_in_the_index_once_under_its_word(serial):
    hazards = demonstration(*serial).project.hazards.hazards
    word, found = "", {}
    for element in cautions_page(serial).walk():
        if element.tag == "h2":
            word = element.text.lower()
        if "index-entry" in element.classes:
            assert element.attributes["id"] not in found
            found[element.attributes["id"]] = word
    assert found == {f"hazard-{name}": str(hazard.word) for name, hazard in hazards.items()}


@pytest.mark.parametrize("serial", SERIALS)
def test_the_index_leads_to_every_box_and_to_nothing_else(serial):
    dossier = demonstration(*serial)
    read_pages = {page.path: read(page) for page in pages(dossier)}
    entries = read_pages["cautions.md"].all(".index-entry")
    led = {(entry.attributes["id"], link.attributes["href"]) for entry in entries for link in entry.all("a")}
    boxes = set()
    texts = {plain(entry.all("strong")[0].text): entry.attributes["id"] for entry in entries}
    fill = LimitText.of(dossier).fill
    remedies = {
        plain(fill(hazard.avoidance)): f"hazard-{name}"
        for name, hazard in dossier.project.hazards.hazards.items()
    }
    for path, root in read_pages.items():
        place = path
        for element in root.walk():
            if (
                element.attributes.get("id", "").startswith(("step-", "system-"))
                and "step" not in element.classes
            ):
                place = f"{path}#{element.attributes['id']}"
            if "hazard--brief" in element.classes:
                boxes.add((remedies[element.one(".hazard__avoid").text], place))
            elif "hazard" in element.classes and not root.all(".emergency"):  # there, each once more
                boxes.add((texts[element.one(".hazard__what").text], place))
    assert led == boxes


@pytest.mark.parametrize("serial", SERIALS)
def test_general_cautions_defer_to_local_rules_and_to_licensed_people(serial):
    said = cautions_page(serial).text
    assert "Local rules go before this document." in said
    assert "licensed or authorised people" in said


@pytest.mark.parametrize("serial", SERIALS)
def test_the_boxes_of_a_system_stand_before_its_description(serial):
    dossier = demonstration(*serial)
    order = []
    for element in read(controls.page(dossier)).walk():
        if element.tag == "h2":
            order.append([element.text])
        elif "hazard" in element.classes:
            order[-1].append("box")
        elif element.tag == "p" and not any(name.startswith("hazard__") for name in element.classes):
            order[-1].append("description")
    systems = dossier.project.aircraft.systems
    assert order == [
        [plain(system.name), *["box"] * len(system.cautions), "description"] for system in systems
    ]


def test_every_control_says_where_it_is_what_it_does_and_how_it_is_marked():
    rows = read(controls.page(quillet())).one("table").one("tbody").all("tr")
    for row, control in zip(rows, quillet().project.aircraft.controls, strict=True):
        for text in (control.name, control.where, control.does, control.marking, *control.detents):
            assert plain(text) in row.text
