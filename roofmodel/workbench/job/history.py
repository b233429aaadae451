"""Undo without undo code: a line of values that are never changed in place."""

from collections.abc import Callable


class History[T]:
    """Holds one immutable value and lets it be replaced, undone and watched.

    Because a job is never changed in place, "undo" is to go back to the value before; no operation
    has to know how to reverse itself.
    """

    def __init__(self, value: T) -> None:
        """Start with no past; the value counts as saved."""
        self._past: list[T] = []
        self._value = value
        self._future: list[T] = []
        self._saved = value
        self._merge_key: object = None
        self._watchers: list[Callable[[T], None]] = []

    @property
    def value(self) -> T:
        """The value as it is now."""
        return self._value

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether a step was taken back and nothing was changed since."""
        return bool(self._future)

    @property
    def past(self) -> tuple[T, ...]:
        """The values before, the oldest first."""
        return tuple(self._past)

    @property
    def future(self) -> tuple[T, ...]:
        """The values taken back, the next first."""
        return tuple(reversed(self._future))

    @property
    def changed(self) -> bool:
        """Whether the value differs from the one last saved."""
        return self._value != self._saved

    def watch(self, tell: Callable[[T], None]) -> None:
        """Call ``tell`` now and after every change."""
        self._watchers.append(tell)
        tell(self._value)

    def replace(self, value: T, *, merge: object = None) -> None:
        """Make ``value`` current; clears what could have been redone.

        Changes in a row with the same ``merge`` key, other than None, become one step: a slider
        that is dragged through fifty values is undone at once.
        """
        if value == self._value:
            return
        # A key is only remembered beside the step it belongs to, so there is a past to merge into.
        if merge is None or merge != self._merge_key:
            self._past.append(self._value)
        self._merge_key = merge
        self._future.clear()
        self._set(value)

    def end_merge(self) -> None:
        """End a row of merged changes, for example when the mouse button is let go."""
        self._merge_key = None

    def undo(self) -> None:
        """Go back one step, if there is one."""
        if self._past:
            self._future.append(self._value)
            self._merge_key = None
            self._set(self._past.pop())

    def redo(self) -> None:
        """Go forward one step again, if one was taken back."""
        if self._future:
            self._past.append(self._value)
            self._merge_key = None
            self._set(self._future.pop())

    def start_afresh(self, value: T) -> None:
        """Begin again with another value, for example another job: no past, counted as saved."""
        self._past.clear()
        self._future.clear()
        self._merge_key = None
        self._saved = value
        self._set(value)

    def mark_saved(self) -> None:
        """Count the current value as saved."""
        self._saved = self._value

    def _set(self, value: T) -> None:
        self._value = value
        for tell in tuple(self._watchers):
            tell(value)
