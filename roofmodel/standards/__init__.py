"""Documents as published: one file per document and edition, one function per clause."""
