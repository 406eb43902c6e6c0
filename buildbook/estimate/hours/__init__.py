"""Hours by stage from those of past jobs, with the range that past quotes call for."""
