"""job.toml and shop.toml: what they may hold, and the values that they state."""
