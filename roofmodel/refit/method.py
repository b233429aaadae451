"""The three ways to do the job."""

from enum import StrEnum


class Method(StrEnum):
    """What is done with the old roof; the value is what a command or a file calls it."""

    NEW_ROOF = "new-roof"
    BUILD_ROUND = "build-round"
    PANEL_SWAP = "panel-swap"

    @property
    def printed(self) -> str:
        """What is printed."""
        return _PRINTED[self]


_PRINTED = {
    Method.NEW_ROOF: "New roof",
    Method.BUILD_ROUND: "Build round the bars",
    Method.PANEL_SWAP: "Panel swap",
}

OLD_NAMES = {"kept-bars": Method.BUILD_ROUND}
"""What a command or a file may have called a method before."""
