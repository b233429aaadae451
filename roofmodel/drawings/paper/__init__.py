"""What every drawing is made of, whatever it is written in; start at `pen`."""
