"""The firm's own pages: every job with its state, its link and what falls due."""
