"""What a job still lacks: what is asked of its maker, for a handover or for the matching piece."""
