"""Details 1 : 5 of eaves, verges, walls, hips and valleys; start at `details`."""
