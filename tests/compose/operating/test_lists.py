import pytest
from demonstration import SERIALS, demonstration, procedure, quillet, with_procedures, without

from dossier.compose.operating import pages
from dossier.compose.operating.lists import KINDS, lists
from dossier.model.procedure import Procedure, ProcedureStep, Section


def steps_of(procedure: Procedure) -> list[ProcedureStep]:
    return [step for section in procedure.sections for step in section.steps]


@pytest.mark.parametrize("serial", SERIALS)
def test_every_procedure_of_the_type_is_a_list_of_the_serial(serial):
    dossier = demonstration(*serial)
    titles = [one.procedure.title for one in lists(dossier)]
    assert sorted(titles) == sorted(procedure.title for procedure in dossier.project.procedures.values())


@pytest.mark.parametrize("serial", SERIALS)
def test_every_step_for_the_serial_is_there_once_in_order_with_its_own_number(serial):
    dossier = demonstration(*serial)
    for one in lists(dossier):
        fitted = (dossier.state.left_out, dossier.battery_of_lists)
        wanted = [step for step in steps_of(one.procedure) if step.applies(*fitted)]
        assert [numbered.step for numbered in one.steps] == wanted
        assert [numbered.number for numbered in one.steps] == list(range(1, len(wanted) + 1))


@pytest.mark.parametrize("path", ["rigging-1-wings.md", "rigging-2-tail.md", "rigging-3-battery.md"])
def test_a_step_for_equipment_that_is_not_fitted_is_left_out_and_the_rest_numbered_anew(path):
    base = next(one for one in lists(without(quillet())) if one.path == path)
    bare = next(one for one in lists(without(quillet(), "parachute")) if one.path == path)
    dropped = [numbered.step for numbered in base.steps if numbered.step.option == "parachute"]
    assert dropped
    assert [numbered.step for numbered in bare.steps] == [n.step for n in base.steps if n.step not in dropped]
    assert bare.steps[-1].number == base.steps[-1].number - len(dropped)


def test_a_section_whose_steps_are_all_left_out_is_gone():
    step = ProcedureStep.model_construct(do="Pull.", expect="Out.", option="parachute")
    plain = ProcedureStep.model_construct(do="Look.", expect="There.")
    sections = [
        Section.model_construct(title=title, steps=[one]) for title, one in (("A", step), ("B", plain))
    ]
    dossier = with_procedures(without(quillet(), "parachute"), rigging=procedure(sections=sections))
    (one,) = lists(dossier)
    assert [(section.title, section.steps[0].number) for section in one.sections] == [("B", 1)]


def test_a_procedure_that_is_all_for_missing_equipment_has_no_page():
    step = ProcedureStep.model_construct(do="Pull.", expect="Out.", option="parachute")
    only = procedure(sections=[Section.model_construct(title="A", steps=[step])])
    assert len(lists(with_procedures(without(quillet()), rigging=only))) == 1
    assert lists(with_procedures(without(quillet(), "parachute"), rigging=only)) == ()


@pytest.mark.parametrize("kind", KINDS)
def test_a_procedure_of_each_kind_gets_a_page(kind):
    step = ProcedureStep.model_construct(do="Look.", expect="There.")
    one = procedure(kind=kind, sections=[Section.model_construct(title="A", steps=[step])])
    made = pages(with_procedures(quillet(), some_work=one))[-1]
    assert (made.title, made.group) == ("Sample work", "Emergencies" if kind == "emergency" else "Procedures")
    assert made.path == ("emergency-some-work.md" if kind == "emergency" else f"{kind}.md")


def test_the_kinds_are_those_of_the_model():
    (leaf,) = Procedure.model_fields["kind"].metadata
    assert set(KINDS) == set(leaf.options)


def test_several_procedures_of_a_kind_are_told_apart_by_their_files_and_stand_in_their_order():
    step = ProcedureStep.model_construct(do="Look.", expect="There.")
    sections = [Section.model_construct(title="A", steps=[step])]
    named = {
        name: procedure(sections=sections, order=order)
        for name, order in (("wing", 20), ("rigging_mast", 10))
    }
    paths = [one.path for one in lists(with_procedures(quillet(), **named))]
    assert paths == ["rigging-mast.md", "rigging-wing.md"]


@pytest.mark.parametrize("serial", SERIALS)
def test_no_two_pages_have_one_path(serial):
    paths = [page.path for page in pages(demonstration(*serial))]
    assert len(paths) == len(set(paths)) > len(KINDS)


@pytest.mark.parametrize("serial", SERIALS)
def test_emergencies_stand_last_and_kinds_in_the_order_of_the_work(serial):
    order = [list(KINDS).index(one.procedure.kind) for one in lists(demonstration(*serial))]
    assert order == sorted(order)
