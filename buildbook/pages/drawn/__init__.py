"""What is drawn on a page, as facts; the geometry is in `render.drawing`."""
