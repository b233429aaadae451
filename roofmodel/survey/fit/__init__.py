"""Fits readings by least squares and finds the one that is wrong; start at `adjustment`."""
