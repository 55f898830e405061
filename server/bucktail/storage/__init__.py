"""Where the record is kept. The only package that knows SQLAlchemy."""
