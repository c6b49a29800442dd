"""A number that defines an element, with its unit and the values that make sense."""

from __future__ import annotations


class Parameter(float):
    """A float that knows its unit and its domain; what `parameters()` gives.

    It computes, compares and prints like the float that it is; what comes of computing is a plain float.

    Attributes
    ----------
    unit : str
        SI unit, empty for a pure number.
    low, high : float
        Ends of the interval of values; minus infinity and infinity where there are none.
    is_low_included, is_high_included : bool
        Whether the ends are among the values.
    is_whole : bool
        Whether only whole numbers make sense.
    domain : str
        The same in words, with relations to other numbers, such as "at most `length_m`".

    Examples
    --------
    >>> import stillroom as sr
    >>> width = sr.RectangularSlot(length_m=0.1, width_m=0.01).parameters()["width_m"]
    >>> width, width.unit, width.low, width.domain
    (0.01, 'm', 0.0, 'positive and finite, at most `length_m`')
    """

    unit: str
    low: float
    high: float
    is_low_included: bool
    is_high_included: bool
    is_whole: bool
    domain: str

    __slots__ = ("domain", "high", "is_high_included", "is_low_included", "is_whole", "low", "unit")

    def __new__(
        cls, value: float, unit: str, bounds: tuple[float, float, bool, bool], is_whole: bool, domain: str
    ) -> Parameter:
        self = super().__new__(cls, value)
        self.unit = unit
        self.low, self.high, self.is_low_included, self.is_high_included = bounds
        self.is_whole = is_whole
        self.domain = domain
        return self

    def includes(self, value: float) -> bool:
        """Whether a value lies in the interval, and is whole where it has to be.

        Relations to other numbers are not asked; the constructor asks them.
        """
        above = value >= self.low if self.is_low_included else value > self.low
        below = value <= self.high if self.is_high_included else value < self.high
        return above and below and (not self.is_whole or float(value).is_integer())

    def __getnewargs__(self) -> tuple[float, str, tuple[float, float, bool, bool], bool, str]:  # type: ignore[override]
        bounds = (self.low, self.high, self.is_low_included, self.is_high_included)
        return float(self), self.unit, bounds, self.is_whole, self.domain
