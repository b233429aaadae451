"""Works out the formulas of a workbook, as far as ours go: sums, rounding, references.

A second way to the figures: nothing of the program is used here.
"""

import re
from decimal import ROUND_DOWN, ROUND_HALF_UP, ROUND_UP, Decimal

_CELL = re.compile(r"(?:'([^']+)'!)?\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?")


def value(book, sheet, cell, worked_out=None):
    """Return what a cell comes to; numbers as Decimal. Each cell is worked out once."""
    known = {} if worked_out is None else worked_out
    if (sheet, cell) not in known:
        entry = book[sheet][cell].value
        if isinstance(entry, str) and entry.startswith("="):
            known[sheet, cell] = Formula(book, sheet, entry[1:], known).whole()
        else:
            number = isinstance(entry, int | float)
            known[sheet, cell] = Decimal(repr(entry)) if number else entry
    return known[sheet, cell]


class Formula:
    def __init__(self, book, sheet, text, worked_out):
        self.book, self.sheet, self.text, self.at = book, sheet, text, 0
        self.worked_out = worked_out

    def whole(self):
        found = self.sum()
        assert self.at == len(self.text), self.text[self.at :]
        return found

    def take(self, sign):
        if self.text.startswith(sign, self.at):
            self.at += len(sign)
            return True
        return False

    def sum(self):
        found = self.product()
        while self.at < len(self.text) and self.text[self.at] in "+-":
            sign = self.text[self.at]
            self.at += 1
            other = self.product()
            found = found + other if sign == "+" else found - other
        return found

    def product(self):
        found = self.atom()
        while self.at < len(self.text) and self.text[self.at] in "*/":
            sign = self.text[self.at]
            self.at += 1
            other = self.atom()
            found = found * other if sign == "*" else found / other
        return found

    def atom(self):
        for name, work in (
            ("SUMIFS(", self.sum_where),
            ("SUM(", self.sum_of),
            ("ROUNDUP(", lambda: self.rounded(ROUND_UP)),
            ("ROUNDDOWN(", lambda: self.rounded(ROUND_DOWN)),
            ("IF(", self.one_or_other),
            ("MAX(", self.most),
            ("ROUND(", self.rounded),
        ):
            if self.take(name):
                return work()
        if self.take("("):
            found = self.sum()
            assert self.take(")")
            return found
        cell = _CELL.match(self.text, self.at)
        if cell:
            self.at = cell.end()
            found = self.cells(cell)
            return found[0] if cell[4] is None else found
        number = re.compile(r"-?[\d.]+").match(self.text, self.at)
        self.at = number.end()
        return Decimal(number[0])

    def cells(self, cell):
        sheet = cell[1] or self.sheet
        last = int(cell[5] or cell[3])
        assert cell[4] in (None, cell[2])
        rows = range(int(cell[3]), last + 1)
        return [value(self.book, sheet, f"{cell[2]}{row}", self.worked_out) for row in rows]

    def comma(self):
        assert self.take(","), self.text[self.at :]

    def one_or_other(self):
        equal = self.sum() == (self.take("=") and self.sum())
        found = []
        while self.take(","):
            found.append(self.sum())
        assert self.take(")")
        return found[0] if equal else found[1]

    def rounded(self, rounding=ROUND_HALF_UP):
        found = self.sum()
        self.comma()
        places = int(self.sum())
        assert self.take(")")
        return found.quantize(Decimal(1).scaleb(-places), rounding=rounding)

    def most(self):
        found = [self.sum()]
        while self.take(","):
            found.append(self.sum())
        assert self.take(")")
        return max(found)

    def sum_where(self):
        amounts = self.atom()
        kept = [True] * len(amounts)
        while self.take(","):
            entries = self.atom()
            self.comma()
            asked = re.compile(r'"([^"]*)"').match(self.text, self.at)
            self.at = asked.end()
            other, word = asked[1].startswith("<>"), asked[1].removeprefix("<>")
            kept = [
                old and ((entry == word) is not other)
                for old, entry in zip(kept, entries, strict=True)
            ]
        assert self.take(")")
        return self.total(a for a, k in zip(amounts, kept, strict=True) if k)

    @staticmethod
    def total(amounts):
        return sum((a for a in amounts if isinstance(a, Decimal)), Decimal(0))

    def sum_of(self):
        found = self.total(self.atom())
        assert self.take(")")
        return found
