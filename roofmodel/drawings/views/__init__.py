"""The roof in plan, elevation and section; start at `plan_view`."""
