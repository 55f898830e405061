"""Push and pull between phones and the workshop's computer."""
