"""Rules and tables: each names the published source it stands on, or does not load."""
