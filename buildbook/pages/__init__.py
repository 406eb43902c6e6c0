"""View models: what a page shows, in words and ready-made figures, as frozen records. Pure.

`client` and `letter` are all that may leave the shop; `log`, `worksheet` and `past` are the maker's own, and the first
two know nothing of them. `drawn` holds what is drawn as facts; `phrases` and `materials` serve them all.
"""
