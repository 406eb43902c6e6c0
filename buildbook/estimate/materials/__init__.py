"""What an enquiry takes: from its parts, or scaled from the likest jobs."""
