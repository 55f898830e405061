"""Parts: what a part needs, in which order, and how far it is."""
