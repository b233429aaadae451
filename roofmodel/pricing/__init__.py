"""What a take-off costs: decimal money, rounded line by line, and never a total with a gap."""
