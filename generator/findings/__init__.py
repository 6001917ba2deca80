"""Results become findings and the five answers."""
