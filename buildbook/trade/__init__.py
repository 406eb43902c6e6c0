"""Trade computing: what a furniture maker works out on the back of an offcut, a subject a module.

Pure functions that take and give SI floats with the unit in the name (`width_m`, `pull_n`), days as dates
and money as Decimal; never text to be read. Figures come from the tables in `data/`, each with its source;
`tables` is the only module here that reads files.

`records` what a row of a table is; `rows` and `tables` reading them; `lookup` finding one by any of its
names, `wood_names` what that means where it was written; `woods` figures of a wood that were not printed, `plausible`
whether those that were can stand together; `timber`, `sheets`, `mass`, `moisture`, `movement`,
`finish`, `glass`, `hardware`, `hanging`, `carbon`, `workings`, `cost` the sums; `rounding` whole numbers
from measured ones.
"""
