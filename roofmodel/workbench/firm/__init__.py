"""The firm's own over what ships: tables, catalogue, words, templates; start at `table`."""
