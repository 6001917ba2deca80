"""Everything the demonstration pictures are drawn with, and the pictures."""
