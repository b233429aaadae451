"""The path of work, from the start page to the workshop; begin with `stages.py`."""
