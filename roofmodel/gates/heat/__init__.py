"""Does the roof insulate as it must? Start at `u_value`."""
