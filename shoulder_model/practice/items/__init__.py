"""Templates of items, a file or more for each chapter; `practice.bank` finds them."""
