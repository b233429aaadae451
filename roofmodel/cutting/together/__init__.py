"""Several jobs cut from the same sheets; start at `plan`."""
