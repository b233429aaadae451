"""Where a photograph was taken from, by clicks on corners of the roof; start with `fitting`."""
