"""Plans that take offcuts from the rack and give back to it; start at `plan`."""
