"""A document in parts that knows no paper: made once, put on a page as HTML and as PDF; small pictures of lines."""
