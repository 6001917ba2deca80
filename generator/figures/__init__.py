"""Results and the record become figures, returned and never saved here."""

from generator.figures import quick_load

quick_load.load()  # before any figure loads the library as a whole
