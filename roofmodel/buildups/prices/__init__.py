"""Prices of the catalogue as lists for a spreadsheet, and back; start at `price_list`."""
