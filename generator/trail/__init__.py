"""What git knows of a job, in the inspector's words."""
