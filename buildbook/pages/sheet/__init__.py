"""The contact sheet: the photos of a job by day, with what was chosen of each. A page of the bench only."""
