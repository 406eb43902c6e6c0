"""The build log of one job. Private."""
