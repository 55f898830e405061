"""This installation: its certificates, its address, its paired phones."""
