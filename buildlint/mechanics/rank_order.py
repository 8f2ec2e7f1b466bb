"""How well two orders agree."""


def ranks(values):
    """The rank of each value from 1, equal values sharing the middle of their places."""
    order = sorted(range(len(values)), key=lambda at: values[at])
    found, start = [0.0] * len(values), 0
    while start < len(order):
        end = start
        while end + 1 < len(order) and abs(values[order[end + 1]] - values[order[start]]) <= 1e-9 * max(1.0, abs(values[order[start]])):
            end += 1
        for at in order[start:end + 1]:
            found[at] = (start + end) / 2 + 1
        start = end + 1
    return found


def rank_correlation(one, other):
    """Spearman's rank correlation with shared ranks: 1 where two orders agree, -1 where they are opposite; None for a constant.

    Source: Spearman, as in any textbook of statistics: the correlation of the ranks.
    """
    first, second = ranks(one), ranks(other)
    middle = (len(first) + 1) / 2
    above = sum((a - middle) * (b - middle) for a, b in zip(first, second))
    spread = (sum((a - middle) ** 2 for a in first) * sum((b - middle) ** 2 for b in second)) ** 0.5
    return above / spread if spread > 0 else None
