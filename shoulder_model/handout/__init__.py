"""Pages to hand out: a chapter to read or to show as slides, and a work sheet for a class, as offline HTML and PDF."""
