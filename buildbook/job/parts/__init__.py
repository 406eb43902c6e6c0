"""What follows from the parts of a job taken together: their finishes, sums, leaves, glass, sets."""
