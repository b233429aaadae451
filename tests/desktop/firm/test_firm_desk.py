"""The menu of the firm: templates, one file to share, and prices that follow at once."""

import pytest

from roofmodel.workbench.firm import rows, shared_file
from roofmodel.workbench.firm.table import RECIPES
from tests import acceptance_jobs

pytestmark = pytest.mark.desktop


class Told:
    """Stands in for the dialogs: what is told is kept."""

    def __init__(self):
        self.refusals = []

    parent_window = None

    def refusal(self, what, why):
        self.refusals.append((what, why))


@pytest.fixture
def desk(qapp, tmp_path):
    from roofmodel.desktop.files import JobFiles
    from roofmodel.desktop.firm.firm_desk import FirmDesk
    from roofmodel.desktop.job.open_job import OpenJob

    open_job, told = OpenJob(acceptance_jobs.drawn("J01").job), Told()
    made = FirmDesk(open_job, JobFiles(open_job, told, None), told, tmp_path)
    made.open_job, made.told = open_job, told
    return made


def test_a_job_is_kept_as_a_template_and_a_new_one_begun_from_it(desk):
    desk.keep_as("lean-to, our usual")
    assert desk.templates() == ("lean-to, our usual",)
    desk.begin("lean-to, our usual")

    assert desk.open_job.path is None
    assert desk.open_job.job.readings == ()
    assert desk.open_job.job.survey == acceptance_jobs.drawn("J01").job.survey
    desk.keep_as("a/b")
    desk.begin("gone")
    assert ["cannot be the name" in why for _, why in desk.told.refusals] == [True, False]


def test_a_row_that_is_withdrawn_is_not_reckoned_with_any_more(desk, qtbot):
    rows.withdrawn(RECIPES, "FOM-750", desk.folder)
    with qtbot.waitSignal(desk.changed):
        desk.reload()

    assert "FOM-750" not in [one.material for one in desk.open_job.drawn.tables.recipes]


def test_what_is_the_firms_is_exported_shown_and_taken(desk, tmp_path):
    path = tmp_path / "ours.rooffirm.json"
    desk.export_to(path)
    assert "nothing of its own" in desk.told.refusals[0][1]
    rows.withdrawn(RECIPES, "FOM-750", desk.folder)
    desk.export_to(path)
    rows.restored(RECIPES, "FOM-750", desk.folder)
    shown = []

    desk.take_from(path, lambda _parent, shared, found: shown.append((shared, found)))
    assert [one.code for one in shown[0][1]] == ["FOM-750"]
    assert not RECIPES.own(desk.folder)
    desk.take_from(path, lambda *_: True)
    assert RECIPES.own(desk.folder).withdrawn == ("FOM-750",)
    assert "FOM-750" not in [one.material for one in desk.open_job.tables.recipes]
    path.write_text("{}", encoding="utf-8")
    desk.take_from(path, lambda *_: True)
    assert "is not a firm's file" in desk.told.refusals[-1][1]


def test_the_dialog_lists_what_would_change_and_takes_nothing_where_nothing_would(qtbot):
    from roofmodel.desktop.firm.shared_dialog import SharedDialog

    shared = shared_file.SharedFile(name="x", firm="A firm", made_on="2026-11-30", files={})
    change = shared_file.Change(part="Recipes", code="FOM-750", what="changed")
    box, bare = SharedDialog(None, shared, [change]), SharedDialog(None, shared, [])
    for one in (box, bare):
        qtbot.addWidget(one)

    assert box.table.item(0, 1).text() == "FOM-750"
    assert (box.take.isEnabled(), bare.take.isEnabled()) == (True, False)
