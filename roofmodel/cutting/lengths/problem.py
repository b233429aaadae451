"""What is to be cut from lengths: the pieces, the stock, the rack and the saw.

Everything is in whole tenths of a millimetre; money in whole hundredths (pence).
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.cutting.parts.tenths import Tenths, cut_tenths
from roofmodel.foundation.errors import CuttingError

LONGEST: Tenths = 200_000
"""No stock length is longer: 20 m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPiece:
    """What is ordered: ``count`` equal pieces of one length.

    ``length`` is measured along the fixed piece; a mitre at an end adds its own length to the
    cut. ``joint_places``, from the left end, are where a piece longer than the stock may be
    joined, such as on bars; None allows a joint anywhere.
    """

    mark: str
    length: Tenths
    count: int = 1
    left_mitre: Tenths = 0
    right_mitre: Tenths = 0
    joint_places: tuple[Tenths, ...] | None = None

    def __post_init__(self) -> None:
        """Refuse a piece of no length, no number or no name."""
        if not self.mark.strip():
            raise CuttingError(
                "A piece without a mark cannot be told from the others. Give it one."
            )
        if self.length <= 0 or self.count < 1 or min(self.left_mitre, self.right_mitre) < 0:
            raise CuttingError(
                f"{self.mark}: {self.count} pieces of {self.length / 10:g} mm cannot be cut. "
                "Enter a length above 0, a count of 1 or more and no mitre below 0."
            )

    @classmethod
    def of_mm(
        cls, mark: str, length_mm: float, *, count: int = 1, joints_mm: Sequence[float] = ()
    ) -> "LengthPiece":
        """Return a piece without mitres from millimetres, rounded up; no joints mean anywhere.

        Raises
        ------
        CuttingError
            If the length is no number, not above 0, or above 1000 m.
        """
        if not 0.0 < length_mm < 1e6:
            raise CuttingError(
                f"{mark}: a piece of {length_mm:g} mm cannot be cut. Enter a length above 0."
            )
        places = tuple(round(place * 10) for place in joints_mm)
        return cls(
            mark=mark, length=cut_tenths(length_mm), count=count, joint_places=places or None
        )

    @property
    def cut_length(self) -> Tenths:
        """Length cut, with what the mitres take."""
        return self.length + self.left_mitre + self.right_mitre


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPart:
    """One piece on the saw, with its mark and the length it is cut to."""

    mark: str
    length: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLength:
    """A length that can be bought; ``price_pence`` each, at most ``most`` of them if given."""

    length: Tenths
    price_pence: int | None = None
    most: int | None = None

    def __post_init__(self) -> None:
        """Refuse what no merchant sells."""
        if not 0 < self.length <= LONGEST:
            raise CuttingError(
                f"A stock length of {self.length / 10:g} mm cannot be bought. Enter more than 0 "
                f"and no more than {LONGEST / 10:g} mm."
            )
        if self.price_pence is not None and self.price_pence <= 0:
            raise CuttingError(
                f"A price of {self.price_pence / 100:g} for the {self.length / 10:g} mm "
                "length is not possible. Enter its price, or leave all prices out."
            )
        if self.most is not None and self.most < 1:
            raise CuttingError(
                f"At most {self.most} lengths of {self.length / 10:g} mm are available. "
                "Leave the length out instead."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class RackLength:
    """An offcut in the rack: there once, and paid for."""

    label: str
    length: Tenths

    def __post_init__(self) -> None:
        """Refuse an offcut nobody could find."""
        if not self.label.strip() or not 0 < self.length <= LONGEST:
            raise CuttingError(
                f"The offcut “{self.label}” of {self.length / 10:g} mm cannot be used. "
                "Give it a label and a length above 0."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthProblem:
    """All parts of one material, what they can be cut from, and the saw cut."""

    parts: tuple[LengthPart, ...]
    stock: tuple[StockLength, ...]
    rack: tuple[RackLength, ...]
    kerf: Tenths

    def __post_init__(self) -> None:
        """Refuse, before any solver sees it, what cannot be cut; name all such parts."""
        if not self.parts:
            raise CuttingError("There is no piece to cut. Enter at least one.")
        if not self.stock:
            raise CuttingError("There is no stock length. Enter at least one in the catalogue.")
        if not 0 <= self.kerf <= 200:
            raise CuttingError(
                f"A saw cut of {self.kerf / 10:g} mm is not possible. Enter 0 to 20 mm."
            )
        _refuse_twins([part.mark for part in self.parts], "pieces carry the mark")
        _refuse_twins([one.label for one in self.rack], "offcuts carry the label")
        _refuse_twins([f"{one.length / 10:g} mm" for one in self.stock], "stock lengths are")
        unpriced = [one for one in self.stock if one.price_pence is None]
        if unpriced and len(unpriced) < len(self.stock):
            names = ", ".join(f"{one.length / 10:g} mm" for one in unpriced)
            raise CuttingError(
                f"No price is given for the length of {names}. Enter it, or leave all prices out."
            )
        longest = self.longest
        refusals = [
            f"{part.mark} needs {part.length / 10:g} mm; the longest stock is {longest / 10:g} mm."
            for part in self.parts
            if part.length > longest
        ]
        if refusals:
            remedy = "Choose a longer stock length, or allow joints."
            raise CuttingError(f"{' '.join(refusals)} {remedy}")

    @property
    def longest(self) -> Tenths:
        """The longest length that can be bought."""
        return max(one.length for one in self.stock)

    @property
    def priced(self) -> bool:
        """Whether every stock length has a price."""
        return self.stock[0].price_pence is not None

    def cost_of(self, stock: StockLength) -> int:
        """Return what is made least: pence; without prices tenths, or 1 where all are alike."""
        if stock.price_pence is not None:
            return stock.price_pence
        return 1 if len(self.stock) == 1 else stock.length


def numbered(piece: LengthPiece) -> Sequence[str]:
    """Return the marks of a piece's copies: its own for one, numbered for several."""
    if piece.count == 1:
        return (piece.mark,)
    return tuple(f"{piece.mark}-{number}" for number in range(1, piece.count + 1))


def _refuse_twins(names: Sequence[str], what: str) -> None:
    twice = [name for name, count in Counter(names).items() if count > 1]
    if twice:
        raise CuttingError(f"Two {what} {twice[0]}. Give each its own.")
