"""Whether a published report is what was given: held against a rebuild from git."""
