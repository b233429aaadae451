"""Three prices, three programmes, the offer and its estimate; start at `offers`."""
