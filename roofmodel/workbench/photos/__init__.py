"""The photographs of a job: kept beside its file, and the roof drawn into them; see `album`."""
