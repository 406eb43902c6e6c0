"""What lies beside a client's page for other programs: calendar, JSON-LD."""
