"""The same work without a screen."""
