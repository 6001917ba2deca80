"""A build in shares: each machine makes one, and all are merged or none."""
