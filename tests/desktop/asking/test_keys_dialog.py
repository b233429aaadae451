"""The list of keys is the menus' own, so that no key is told that does nothing."""

import pytest
from PySide6.QtGui import QKeySequence

from roofmodel.desktop.asking import keys_dialog
from roofmodel.desktop.asking.keys_dialog import KeysDialog

pytestmark = pytest.mark.desktop


def test_every_key_of_a_menu_is_listed_once(open_window):
    rows = keys_dialog.of_menus(open_window("hipped").menuBar())
    keys = [key for _, key in rows]

    assert ("Save", "Ctrl+S") in rows
    assert ("Keys", "F1") in rows
    assert len(set(keys)) == len(keys)
    assert all(not QKeySequence(key).isEmpty() for key in keys)


def test_the_list_stays_open_beside_the_window(open_window, qtbot):
    window = open_window("hipped")
    box = KeysDialog(window, [("Save", "Ctrl+S"), *keys_dialog.IN_THE_PICTURE])
    qtbot.addWidget(box)
    box.show()

    assert not box.isModal()
    assert box.table.rowCount() == 1 + len(keys_dialog.IN_THE_PICTURE)
    assert box.table.item(0, 1).text() == "Ctrl+S"
