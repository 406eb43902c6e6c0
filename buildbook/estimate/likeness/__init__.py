"""What is compared of a piece, and how like two pieces are."""
