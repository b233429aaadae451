"""Turn a taped survey of a worn-out conservatory roof into figures, cut sheets and drawings."""
