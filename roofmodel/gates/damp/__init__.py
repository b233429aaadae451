"""Can the roof stay dry inside? Start at `condensation`."""
