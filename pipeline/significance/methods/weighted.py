"""Weighted least squares of many cells on one design, by its orthogonal basis.

A cell is put on the scale on which its errors are alike: rows times the root of its weights. There
the fit is the projection on the design's columns, made orthogonal one after the other (Gram and
Schmidt, each twice, which is as exact as Householder's: Giraud, Langou & Rozloznik 2005), in the
same order on every processor.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.ratio import Bools, Estimate, Floats

ALIKE = 1e-9  # of a column's length: what is left of it beside the others is rounding


class Indistinct(ValueError):
    """A term of the design is made of the others: nothing tells it from them."""


class Fit(NamedTuple):
    """Fits of the usable cells on a common design, each on its own scale of equal errors.

    `coefficients` (cells, terms); `solver` (cells, terms, points) makes them of a cell's scaled
    rows; `basis` (cells, points, terms) is orthonormal; `residual` (cells, points) is scaled;
    `root` (points, cells) is what a row was scaled by; `usable` (all cells,) says which cells these
    are: the others have a point without a finite value or without weight.
    """

    coefficients: Floats
    solver: Floats
    basis: Floats
    residual: Floats
    root: Floats
    usable: Bools

    @property
    def df(self) -> int:
        return int(self.basis.shape[1] - self.basis.shape[2])

    @property
    def inverse(self) -> Floats:
        """(X'WX)^-1 of each usable cell, (cells, terms, terms); weights have the mean one."""
        product: Floats = np.einsum("cpn,cqn->cpq", self.solver, self.solver)
        return product

    def spread(self, values: Floats) -> Floats:
        """Values of the usable cells among all cells, undefined for the others."""
        every = np.full(len(self.usable), np.nan)
        every[self.usable] = values
        return every

    def term(self, place: int) -> Estimate:
        """A coefficient with its error, independent errors taken for granted; t with n - k."""
        variance = (self.residual**2).sum(1) / self.df * (self.solver[:, place] ** 2).sum(1)
        value, error = self.coefficients[:, place], np.sqrt(variance)
        df = np.full(len(self.usable), float(self.df))
        return Estimate(self.spread(value), self.spread(error), df)


def fit(z: Floats, weight: Floats, design: Floats) -> Fit:
    """Fit z (points, cells) with weights alike on a design (points, terms).

    Raises Indistinct where the design's own columns can't be told apart, or where it has as many
    terms as points.
    """
    usable: Bools = np.all(np.isfinite(z) & np.isfinite(weight) & (weight > 0), axis=0)
    if design.shape[0] <= design.shape[1]:
        raise Indistinct(f"{design.shape[0]} points bear no {design.shape[1]} terms")
    weight = weight[:, usable]
    root = np.sqrt(weight / weight.mean(0))
    scaled = (z[:, usable] * root).T
    basis, upper = _orthogonal(root.T[:, :, None] * design)
    solver = _solved(upper, basis)
    along = np.einsum("cnp,cn->cp", basis, scaled)
    residual = scaled - np.einsum("cnp,cp->cn", basis, along)
    coefficients = np.einsum("cpn,cn->cp", solver, scaled)
    return Fit(coefficients, solver, basis, residual, root, usable)


def _orthogonal(columns: Floats) -> tuple[Floats, Floats]:
    """(basis (cells, points, terms), upper triangle (cells, terms, terms)): their product is it."""
    cells, _, terms = columns.shape
    basis, upper = columns.copy(), np.zeros((cells, terms, terms))
    for place in range(terms):
        column = basis[:, :, place]
        before = np.sqrt((column**2).sum(1))
        for _ in range(2):
            for other in range(place):
                part = (basis[:, :, other] * column).sum(1)
                upper[:, other, place] += part
                column -= part[:, None] * basis[:, :, other]
        length = np.sqrt((column**2).sum(1))
        if np.any(length <= ALIKE * before):
            raise Indistinct("a term of the design is made of the others")
        upper[:, place, place] = length
        column /= length[:, None]
    return basis, upper


def _solved(upper: Floats, basis: Floats) -> Floats:
    """upper^-1 basis' of each cell, from the last row up."""
    solver = np.moveaxis(basis, 1, 2).copy()
    for place in reversed(range(upper.shape[1])):
        for other in range(place + 1, upper.shape[1]):
            solver[:, place] -= upper[:, place, other, None] * solver[:, other]
        solver[:, place] /= upper[:, place, place, None]
    return solver
