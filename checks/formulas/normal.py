"""The standard normal distribution, as an expression that both languages compute alike."""

from __future__ import annotations

import sympy

from checks.expressions import defined, larger, smaller

# W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969),
# coefficients from memory; held to 1e-14 of another library's erfc by tests/oracles.
_NEAR = (
    (
        1.85777706184603153e-1,
        3.16112374387056560,
        1.13864154151050156e2,
        3.77485237685302021e2,
        3.20937758913846947e3,
    ),
    (1.0, 2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3),
)
_MIDDLE = (
    (
        2.15311535474403846e-8, 5.64188496988670089e-1, 8.88314979438837594, 6.61191906371416295e1,
        2.98635138197400131e2, 8.81952221241769090e2, 1.71204761263407058e3, 2.05107837782607147e3,
        1.23033935479799725e3,
    ),
    (
        1.0, 1.57449261107098347e1, 1.17693950891312499e2, 5.37181101862009858e2, 1.62138957456669019e3,
        3.29079923573345963e3, 4.36261909014324716e3, 3.43936767414372164e3, 1.23033935480374942e3,
    ),
)  # fmt: skip
_FAR = (
    (
        1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1, 1.25781726111229246e-1,
        1.60837851487422766e-2, 6.58749161529837803e-4,
    ),
    (
        1.0, 2.56852019228982242, 1.87295284992346725, 5.27905102951428412e-1, 6.05183413124413191e-2,
        2.33520497626869185e-3,
    ),
)  # fmt: skip


def _ratio(coefficients, x):
    """A ratio of two polynomials by Horner's rule, highest power first."""
    above, below = (_horner(part, x) for part in coefficients)
    return above / below


def _horner(part, x):
    result = sympy.Float(part[0])
    for coefficient in part[1:]:
        result = result * x + coefficient
    return result


def _erfc(x):
    """Complementary error function of x >= 0."""
    square = x * x
    near = 1 - x * _ratio(_NEAR, square)
    middle = sympy.exp(-square) * _ratio(_MIDDLE, x)
    inverse = 1 / square
    far = sympy.exp(-square) / x * (1 / sympy.sqrt(sympy.pi) - inverse * _ratio(_FAR, inverse))
    return sympy.Piecewise((near, x <= sympy.Float(0.46875)), (middle, x <= 4), (far, True))


error_function_complement = defined("error_function_complement", "erfc", _erfc)


def _phi(z):
    far = smaller(larger(z, -z), 37)
    tail = error_function_complement(far / sympy.sqrt(2)) / 2
    return sympy.Piecewise((tail, z <= 0), (1 - tail, True))


def _density(symbol):
    return sympy.exp(-(symbol**2) / 2) / sympy.sqrt(2 * sympy.pi)


# Share of the distribution below z; beyond 37 it is 0 or 1 to every digit.
normal_below = defined("normal_below", "Phi", _phi, derivative=_density)
