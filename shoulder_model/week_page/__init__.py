"""The page that a client takes home: cautions, the week, a log, an appendix for the tutor; the same as HTML and as PDF."""
