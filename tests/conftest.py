"""Settings every test shares."""

import os

from hypothesis import settings

# A busy machine is no fault of the code: speed is measured by the benchmarks. Where nobody looks
# on, the same examples come each time.
settings.register_profile("here", deadline=None)
settings.register_profile("unattended", deadline=None, derandomize=True)
settings.load_profile("unattended" if os.environ.get("CI") else "here")
