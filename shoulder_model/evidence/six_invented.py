"""Six invented trials, and their summary worked out by hand."""

from .trials import Comparison

SD, CORRELATION = 10.0, 0.5  # %MVIC, in both pulls of every trial; between the pulls
PEOPLE = (20, 20, 5, 95, 20, 20)
PULL_A, PULL_B = (40.0, 38.0, 44.0, 38.0, 42.0, 40.0), (36.0, 38.0, 34.0, 36.0, 34.0, 35.0)  # mean, %MVIC


def six_invented():
    """Six trials that nobody ran, A to F, as a tuple of `Comparison`: pull A against pull B, mean reading in %MVIC.

    SD 10 in both pulls, correlation 0.5. By hand:

    1. d = difference / 10: 0.4, 0, 1, 0.2, 0.8, 0.5.
    2. Factor for small groups, 1 − 3 / (4 (n − 1) − 1): with 20 people 1 − 3/75 = 0.96, with 5 people 1 − 3/15 = 0.8, with 95
       people 1 − 3/375 = 0.992. So g = 0.384, 0, 0.8, 0.1984, 0.768, 0.48.
    3. Variance of g = factor² × (1 + d²/2) / n, for 2 (1 − 0.5) is 1: 0.9216 × 1.08/20 = 0.04977, 0.9216 × 1/20 = 0.04608,
       0.64 × 1.5/5 = 0.192, 0.984064 × 1.02/95 = 0.01057, 0.9216 × 1.32/20 = 0.06083, 0.9216 × 1.125/20 = 0.05184.
    4. Weight = 1 / variance: 20.09, 21.70, 5.21, 94.65, 16.44, 19.29; together 177.38. Sum of weight × g:
       7.716 + 0 + 4.167 + 18.778 + 12.626 + 9.259 = 52.546; weighted mean 52.546 / 177.38 = 0.296.
    5. Q = sum of weight × g², less 52.546² / 177.38: 2.963 + 0 + 3.333 + 3.726 + 9.697 + 4.444 − 15.566 = 8.597. Chance alone
       gives about 5, one less than there are trials.
    6. C = 177.38 − (20.09² + 21.70² + 5.21² + 94.65² + 16.44² + 19.29²) / 177.38 = 177.38 − 59.21 = 118.17. Variance between
       trials, tau² = (8.597 − 5) / 118.17 = 0.0304.
    7. New weight = 1 / (variance + 0.0304): 12.47, 13.07, 4.50, 24.39, 10.96, 12.15; together 77.53. The largest trial has
       24.39 / 77.53 = 31 % of the weight now, and had 94.65 / 177.38 = 53 %.
    8. Summary: (12.47 × 0.384 + 0 + 4.50 × 0.8 + 24.39 × 0.1984 + 10.96 × 0.768 + 12.15 × 0.48) / 77.53
       = 27.47 / 77.53 = 0.354; its standard error √(1 / 77.53) = 0.1136; with 5 degrees of freedom
       t = 2.571, so the interval is 0.354 ± 0.292.
    """
    return tuple(
        Comparison(
            study=f"invented {letter}", citation=f"Invented trial {letter}", n=n, question="row or pulldown",
            muscle="latissimus dorsi", phase="whole", first="pull A", second="pull B", higher="", statement="invented",
            held="each", also_changed="", trained="not stated", normalised="MVIC", flaws="nobody ran it",
            means=(a, SD, b, SD), correlation=CORRELATION,
        )
        for letter, n, a, b in zip("ABCDEF", PEOPLE, PULL_A, PULL_B, strict=True)
    )  # fmt: skip
