"""Pieces on sheets, judged by a verifier that knows no solver; start at `nest`."""
