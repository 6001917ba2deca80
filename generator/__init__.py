"""A job file becomes a record, results, findings, figures, pages and one website."""

__version__ = "0.1.0"
