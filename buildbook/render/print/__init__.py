"""PDFs by the templates of a theme: card, booklet, letter."""
