"""What the roof weighs, what lies on it, and who carries it; start at `loads`."""
