"""Results and the record become figures, returned and never saved here."""
