"""Who does what when: tasks in days, with the room never left open to the weather overnight."""
