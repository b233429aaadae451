"""What each of the three methods keeps, replaces and lays on the roof."""
