"""Where the rain goes; start at `rainwater`."""
