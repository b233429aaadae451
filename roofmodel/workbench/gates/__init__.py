"""The gates of a method on the open job, and the pack for building control; start at `gates`."""
