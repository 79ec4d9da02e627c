"""Documents on their way to the disk: first all beside their places, then each moved into its own, or none at all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from bulletin.model import Document, Place, Problem


@dataclass(frozen=True)
class Delivery:
    """Documents that are written and wait beside their places: pairs of the file that waits and its place.

    `stale` are older files that must not lie beside the new ones.
    """

    waiting: tuple[tuple[Path, Path], ...]
    stale: tuple[Path, ...] = ()

    def put(self) -> list[Path]:
        """Move every document into its place, over an older one, and take away what is stale; return the places."""
        for path in self.stale:
            path.unlink(missing_ok=True)
        return [unfinished.replace(path) for unfinished, path in self.waiting]

    def discard(self) -> None:
        """Take back what waits; the places stay as they were."""
        for unfinished, _ in self.waiting:
            unfinished.unlink(missing_ok=True)


def lay_out(documents: Iterable[Document], out: Path, *, swept: str = "") -> tuple[Delivery | None, list[Problem]]:
    """Write documents beside their places below a folder; None, and nothing left behind, where that can't be done.

    `swept` is a folder below it in which files of an earlier delivery are stale if this one has none in their place.
    """
    waiting: list[tuple[Path, Path]] = []
    try:
        for document in documents:
            path = out / document.path
            path.parent.mkdir(parents=True, exist_ok=True)
            waiting.append((path.with_name(f".{path.name}.part"), path))
            waiting[-1][0].write_bytes(document.content)
    except OSError as fault:
        Delivery(tuple(waiting)).discard()
        return None, [Problem("out-unwritable", "error", Place(str(out)), str(out), {"why": fault.strerror or str(fault)})]
    return Delivery(tuple(waiting), tuple(_stale(out / swept, waiting) if swept else ())), []


def _stale(folder: Path, waiting: Iterable[tuple[Path, Path]]) -> list[Path]:
    """Mails of an earlier delivery, and what an interrupted one left of its own."""
    taken = {path for pair in waiting for path in pair}
    return sorted(path for pattern in ("*.eml", ".*.eml.part") for path in folder.glob(pattern) if path not in taken)
