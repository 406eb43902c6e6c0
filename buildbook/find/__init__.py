"""Past work, found again.

`model`     what is searched of one job: its words, and what the index needs of them
`record`    makes that of a job
`tokens`    text -> words as the index keeps them; language.toml holds what that rests on
`counting`  how often each word stands in it, kept beside it
`index`     for each word the jobs that have it and how strongly, as small integers; weights.toml says how
`packing`   the index as compact text, and back, each part when it is asked for
`scripts`   index and words as scripts that a page loads, and back
`query`     a question -> jobs in order
`passage`   why a job was found

The page of past work searches by a script that does the same: both only look up and add integers, so they agree.
Pure but for reading its own data files.
"""
