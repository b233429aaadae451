"""What officials and neighbours ask of the whole house; start at `every_consent`."""
