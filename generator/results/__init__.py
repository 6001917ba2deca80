"""A record becomes results: pure functions, one file for each subject."""
