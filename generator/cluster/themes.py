"""The theme's files, which every site shares, come from a cluster once and stay."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

from generator.website.shared import COPY_NAME, copy_name

FOLDER = "theme"  # below build/
DRAFT = ".next"


class Themes:
    """Folders of theme files, each named after what it holds.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder. What lies in its ``theme`` and does not hold what its name
        says is taken away.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder / FOLDER
        self.known: set[str] = set()
        self.used: set[str] = set()
        for one in self.folder.iterdir() if self.folder.is_dir() else ():
            if COPY_NAME.fullmatch(one.name) and copy_name(one) == one.name:
                self.known.add(one.name)
            else:
                shutil.rmtree(one, ignore_errors=True)

    def keep(self, name: str, files: Mapping[str, bytes]) -> bool:
        """Keep files under a name; False where this is not the name of what they hold.

        Parameters
        ----------
        name : str
            The name, as ``website.shared.copy_name`` gives it.
        files : mapping of str to bytes
            Content by path; no path leads out.

        Returns
        -------
        bool
            Whether they are kept.
        """
        if name in self.known:
            return True
        draft = self.folder / DRAFT
        shutil.rmtree(draft, ignore_errors=True)
        for path, content in files.items():
            file = draft / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
        if copy_name(draft) != name:
            shutil.rmtree(draft, ignore_errors=True)
            return False
        draft.rename(self.folder / name)
        self.known.add(name)
        return True

    def lay(self, name: str, target: Path) -> None:
        """Copy the files of a name to where a site has them."""
        shutil.copytree(self.folder / name, target)
        self.used.add(name)

    def drop_unused(self) -> None:
        """Take away what no site of this build uses: another version made it."""
        for name in self.known - self.used if self.used else ():
            shutil.rmtree(self.folder / name, ignore_errors=True)
