"""Published figures as data: one pack for each jurisdiction or guide."""
