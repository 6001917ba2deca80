"""A job file becomes a checked record, or every problem that stands in its way."""
