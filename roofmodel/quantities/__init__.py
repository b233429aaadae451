"""How much of every material a method takes, with the formula and the geometry behind each line."""
