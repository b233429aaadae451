"""The empty survey sheet to fill in on site; start at `page`."""
