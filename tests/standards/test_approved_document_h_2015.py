"""Gutters and outlets of the table."""

from roofmodel.standards import approved_document_h_2015 as document_h


def test_two_gutters_that_share_an_outlet_count_as_the_smaller():
    assert document_h.outlet_takes_m2(63.0) == min(
        row.most_m2 for row in document_h.HALF_ROUND if row.outlet_mm == 63.0
    )
