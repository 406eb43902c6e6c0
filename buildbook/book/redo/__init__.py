"""What to bind again: what a job was made from and what was made of it, noted and held against what is there."""
