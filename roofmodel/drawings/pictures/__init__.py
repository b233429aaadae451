"""Pictures of the roof, and the page in 3D; start at `picture`."""
