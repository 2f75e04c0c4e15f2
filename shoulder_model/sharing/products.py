"""Products of many small tables with a vector each, table by table: the bits of one do not hang on how many there are.

`numpy.einsum` adds in an order that hangs on how its arrays lie in memory, and a product with all rows as one matrix rounds a
single row otherwise than many; products of a stack of tables go through one table at a time.
"""


def supplied(tables, amounts):
    """Sums (n, k) of the columns of ``tables`` (n, k, m) times ``amounts`` (n, m), in the product of their units."""
    return (tables @ amounts[:, :, None])[:, :, 0]


def valued(prices, tables):
    """Sums (n, m) of the rows of ``tables`` (n, k, m) times ``prices`` (n, k), in the product of their units."""
    return (prices[:, None, :] @ tables)[:, 0]
