"""A report as one encrypted file, for a host whose folders anybody can list.

The key stands after the ``#`` of the link. A browser sends nothing of that part to the
host, which so keeps a file that it cannot read. It does not help against a host that
changes the file: whoever writes the page writes its script.
"""
