"""What is told of a piece, judged by the trade instead of by the rules.

`kinds.toml` says what forty kinds of piece have, `axes.toml` what else a piece may be; `covering` picks pieces so that
everything meets everything; `pieces` writes each as a maker would and reads it; `instructions.toml` says of every
instruction where it must, may and must never be told, `says.toml` the same of what is said whatever the instruction,
`clashes.toml` what must not stand together. `judge` holds what was told against them. None of it reads a rule's
conditions. `python -m tests.care.matrix` prints what it finds.
"""
