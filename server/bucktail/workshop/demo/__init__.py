"""The demo workshop: invented people, an invented kit, a year of invented work."""
