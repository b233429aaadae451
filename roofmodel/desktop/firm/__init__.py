"""What is the firm's own, in windows: rates, tables, templates, one file; start at `firm_desk`."""
