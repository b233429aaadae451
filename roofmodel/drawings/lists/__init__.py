"""Lists and labels: parts, orders, days, what to load; start at `work_lists`."""
