"""Pages, figures and photographs become one private site behind an unguessable link."""
