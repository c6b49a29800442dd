"""What can be wrong with an input: exceptions with fields, and the domain warning."""

from __future__ import annotations

__all__ = [
    "DuplicateNameError",
    "EmptyError",
    "FormatError",
    "LengthMismatchError",
    "NotIncreasingError",
    "OutOfRangeError",
    "RelationError",
    "ReservedNameError",
    "UnknownNameError",
    "UnknownParameterError",
    "UnreachableError",
]


class DomainWarning(UserWarning):
    """A model was asked outside the domain in which it holds.

    Issued once a call; the text names the limit that was passed and what becomes of the number.
    """


class StillroomError(ValueError):
    """Base class of the library's exceptions; a `ValueError`.

    The fields of each exception are attributes, beside the text.
    """

    def __init__(self, message: str, **fields: object) -> None:
        super().__init__(message)
        self.__dict__.update(fields)


class OutOfRangeError(StillroomError):
    """A value outside its domain; `index` tells the place inside an array."""

    quantity: str
    value: float
    unit: str
    accepted: str
    index: int | None = None


class RelationError(StillroomError):
    """Two values that contradict each other."""

    quantity: str
    value: float
    unit: str
    relation: str
    other: str
    other_value: float


class EmptyError(StillroomError):
    """Something that needs at least one entry and has none."""

    quantity: str


class LengthMismatchError(StillroomError):
    """Two sequences that should be equally long and are not."""

    quantity: str
    length: int
    other: str
    other_length: int


class NotIncreasingError(StillroomError):
    """A sequence that should rise and does not."""

    quantity: str
    index: int
    value: float
    previous: float
    unit: str


class UnknownNameError(StillroomError):
    """A name that is not in a list of known ones."""

    kind: str
    name: str
    known: list[str]


class UnknownParameterError(StillroomError):
    """A parameter path that leads nowhere."""

    path: str
    known: list[str]


class DuplicateNameError(StillroomError):
    """A name given twice where names must differ."""

    kind: str
    name: str


class ReservedNameError(StillroomError):
    """A name that cannot be used."""

    kind: str
    name: str


class UnreachableError(StillroomError):
    """A target that no allowed value reaches; carries the best that can be had."""

    quantity: str
    target: float
    best: float
    unit: str
    at: str


class FormatError(StillroomError):
    """A file or text that does not follow its format; `column` tells the field where one is at fault."""

    what: str
    line: int
    column: int | None
    found: str
    expected: str
