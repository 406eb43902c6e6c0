"""What leaves: the names of its files, its fingerprints, packing it, and checking one that anyone may have made."""
