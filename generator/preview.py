"""A job on this machine only: built, served on the loopback, built again on change."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Event, Thread

from generator.problems import Problem, Refused
from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import link_book
from generator.record.load import Workspace
from generator.seen import Seen, as_drafted, as_given
from generator.site import build_site
from generator.website import links, publish
from generator.website.photo_uses import drop_unused

OFFICE = "office"  # in the firm's folder: what is for this machine only
LOOPBACK = "127.0.0.1"
SECONDS_BETWEEN_LOOKS = 0.5  # our choice: soon enough for a person


class Preview:
    """Builds one job into ``office/`` and shows it; never published.

    Its files as they stand, or, where ``given``, what clients see of it.
    """

    def __init__(self, workspace: Workspace, job: str, *, given: bool = False) -> None:
        self.workspace = workspace
        self.job = job
        self.look = as_given if given else as_drafted
        self.folder = workspace.root / OFFICE / "preview"

    def build(self) -> Path:
        """Build the job; give its first page."""
        with publish.alone(self.folder):
            return self._built(self.look(self.workspace, self.job, self.folder))

    def _built(self, look: Seen) -> Path:
        root, name = self.workspace.root, None
        if links.has_secret(root):  # a preview makes none
            secret, _ = links.read_secret(root)
            number = link_book(self.workspace, self.job).last.number
            name = links.folder_name(secret, self.job, number)
        site = build_site(look.workspace, look.worked, self.folder, name, look.origin)
        drop_unused(self.folder, self.workspace.jobs())
        return site / "index.html"

    def serve(self, port: int, tell: Callable[[str], None]) -> None:
        """Serve the site until interrupted; build again when a file changes."""
        site = self.folder / "sites" / self.job
        handler = partial(_Quiet, directory=str(site))
        try:
            server = ThreadingHTTPServer((LOOPBACK, port), handler)
        except OSError:
            message = f"Port {port} cannot be used here; another program may hold it."
            raise Refused([Problem("--port", 0, "", message, "Try another.")]) from None
        tell(f"http://{LOOPBACK}:{server.server_port}/ (Ctrl-C ends)")
        with server:
            Thread(target=server.serve_forever, daemon=True).start()
            try:
                self._watch(tell, Event())
            except KeyboardInterrupt:
                server.shutdown()

    def _watch(self, tell: Callable[[str], None], never: Event) -> None:
        before = self._state()
        while not never.wait(SECONDS_BETWEEN_LOOKS):
            now = self._state()
            if now == before:
                continue
            before = now
            try:
                self.build()
                tell(f"{self.job}: built again")
            except Refused as refused:
                tell(str(refused))

    def _state(self) -> list[tuple[str, int, int]]:
        folder = self.workspace.photo_folder(self.job)
        files = [
            self.workspace.job_file(self.job),
            self.workspace.inspections / FIRM_FILE,
            *(sorted(folder.iterdir()) if folder.is_dir() else ()),
        ]
        stats = [(path, path.stat()) for path in files if path.exists()]
        return [(str(path), stat.st_mtime_ns, stat.st_size) for path, stat in stats]


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""
