"""Do rafters, hips and battens pass a screen? Start at `members`."""
