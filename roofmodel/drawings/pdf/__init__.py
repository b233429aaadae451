"""Writes drawings and lists as PDF; start at `pdf_pen`."""
