"""Findings and results become the Markdown pages of one client's site."""
