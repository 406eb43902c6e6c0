"""Keeps binding while the maker works, and shows the book on this machine only; an open page reloads itself.

`watching` says when something was saved, `running` binds, `server` shows the book: to its own page and to no other.
`admit` decides whom it answers, `address` and `files` what a request may name, `connections` how many may ask and for
how long, `answer` what goes with everything that is sent. The book itself holds nothing for this.
"""

from buildbook.bench.running import BenchError, run

__all__ = ["BenchError", "run"]
