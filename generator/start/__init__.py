"""A new firm's own repository: the folder that `onlot start` writes."""
