"""EN 1999-1-1:2007, aluminium in bending: what a screen of glazing bars takes from it.

From memory, all of it; nobody here has the document. Holes, joints, lateral buckling and the heat
of welds are the engineer's.
"""

import math

from roofmodel.foundation.source import Source

SOURCE = Source("EN 1999-1-1:2007, from memory", "Table 3.2b, 6.1.4, 6.2.5", verified=False)

WEAKEST_PROOF_N_MM2 = 110.0
"""0.2 % proof strength of EN AW-6063 T5, the weakest extrusions of this kind are made of."""

STIFFNESS_N_MM2 = 70_000.0
"""Young's modulus."""

GAMMA_M1 = 1.1
"""Partial factor of a section."""


def most_bending_n_mm2(proof_n_mm2: float) -> float:
    """Return the bending stress a section may be taken to."""
    return proof_n_mm2 / GAMMA_M1


def stands_flat(width_mm: float, wall_mm: float, proof_n_mm2: float) -> bool:
    """Return whether a wall between two webs reaches its strength before it buckles (class 3).

    Examples
    --------
    >>> stands_flat(56.0, 2.0, 110.0), stands_flat(68.0, 2.0, 110.0)
    (True, False)
    """
    return width_mm / wall_mm <= 22.0 * math.sqrt(250.0 / proof_n_mm2)
