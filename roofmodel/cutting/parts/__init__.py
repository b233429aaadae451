"""What is cut: pieces and stock in tenths of a millimetre, on their sheets; start at `problem`."""
