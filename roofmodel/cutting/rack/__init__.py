"""Plans that take leftovers from the rack and give back to it; start at `plan`."""
