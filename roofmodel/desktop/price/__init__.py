"""Take-off, comparison and what the finished job took; start at `take_off_page`."""
