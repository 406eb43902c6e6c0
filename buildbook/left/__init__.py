"""What a bound job leaves for the pages across jobs. Private."""
