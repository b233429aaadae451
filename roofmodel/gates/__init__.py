"""Questions put to a refit, each answered with its number, its limit, its source and a remedy."""
