"""Tables with headings (parts.csv, prices.csv), whatever spreadsheet wrote them."""
