"""The letter of an estimate: all that may leave the shop about an enquiry."""
