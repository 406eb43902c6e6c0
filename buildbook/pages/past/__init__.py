"""The list of past work and the pages across jobs. Private."""
