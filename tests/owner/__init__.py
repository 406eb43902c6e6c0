"""A page that an owner can use for thirty years: forty questions, and how far the client's page answers them.

`questions.toml`  what an owner asks, of which piece, and what a conservator would answer
`pieces.toml`     six whole jobs, and what a person sees of each
`questions`       both, read into records
`shelf`           the six, bound in a language and a theme
`page.py`         a client's page in a browser, as passages with their place on a phone
`score`           where a question is answered, how fully, and what a careful reader would give it
`report`          the table, and `before.json`: the answers of the page as it was

`python -m tests.owner` prints the table of today's pages beside the one that is kept; `--keep` writes it anew.
"""
