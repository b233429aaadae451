"""The gates of the method, and what they ask; start at `gates_page`."""
