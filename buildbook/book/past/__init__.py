"""Past work in a book: the records of its jobs, and the pages and the index across them."""
