"""The materials a roof is built up from, room to outside."""
