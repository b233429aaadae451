"""The job file: every fault in it is told in plain words, and no save leaves it half-written."""
