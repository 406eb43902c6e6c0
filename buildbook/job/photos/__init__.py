"""Picture files: what each is by its header, and opening one safely."""
