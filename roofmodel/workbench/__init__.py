"""The open job: everything computed from what was entered, with undo."""
