"""The one thing that readers of this room raise."""

from __future__ import annotations


class QuantityError(ValueError):
    """The text is not what it should be: `message` says what is there, `hint` what to do. `cause` names a slip that is
    one however many cells have it, such as a decimal comma: it is told once, with all its rows.
    """

    def __init__(self, message: str, hint: str = "", cause: str = "") -> None:
        super().__init__(f"{message} {hint}".strip())
        self.message = message
        self.hint = hint
        self.cause = cause
