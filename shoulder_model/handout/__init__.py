"""Pages to hand out: a chapter to read or to show as slides, a panel that moves by itself, a work sheet; offline HTML and PDF."""
