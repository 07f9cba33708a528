"""The folder a job's files lie in: what a row may name there, and what is kept once it was read."""

import difflib
import hashlib
from collections.abc import Callable, Collection, Hashable, Mapping
from itertools import islice
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import Any, NamedTuple, TypeVar

Made = TypeVar("Made")

LARGEST_BYTES: Mapping[str, int] = {
    ".stl": 300_000_000,
    ".obj": 200_000_000,
    ".ply": 200_000_000,
    ".dxf": 20_000_000,
    ".svg": 30_000_000,
}
"""Suffixes that are known, each with the largest file that is read."""
_MOST_LISTED = 1_000
"""Names of a folder that are looked through for the one that was meant."""
_NEIGHBOURS = 3
_LONGEST_NAME = 60


class FileError(ValueError):
    """A file that a row names cannot be used.

    Attributes:
        found: What is there and why it will not do; one sentence, no full stop.
        expected: What is wanted.
        advice: What to do about it.
    """

    def __init__(self, found: str, expected: str, advice: str) -> None:
        """Keep the three parts of the message apart."""
        super().__init__(found)
        self.found = found
        self.expected = expected
        self.advice = advice


class Found(NamedTuple):
    """A file of the job.

    Attributes:
        path: Where it is.
        name: From the folder of the job, with forward slashes.
        suffix: In small letters, with its dot.
        sha256: Digest of what is in it.
        size: In bytes.
    """

    path: Path
    name: str
    suffix: str
    sha256: str
    size: int


class Shelf:
    """The files of one job. Nothing outside its folder is looked at.

    What was found and read is kept, so that two ways of building read a file once; what could not
    be read is kept likewise.
    """

    def __init__(self, folder: Path) -> None:
        """Take the folder of a workbook, or the folder of .csv files that stands for one."""
        self.folder = folder.resolve()
        self._kept: dict[Hashable, Any] = {}

    def find(self, name: str, suffixes: Collection[str] = tuple(LARGEST_BYTES)) -> Found:
        """Return the file of a name, such as `bird.stl` or `models/bird.stl`.

        Args:
            name: As typed; back slashes part folders as well.
            suffixes: Those that will do here, of `LARGEST_BYTES`.

        Raises:
            FileError: There is no such file, or it cannot be used.
        """
        return self.kept(("found", name, *suffixes), lambda: self._find(name, suffixes))

    def kept(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """Return what was made under this key before, or make it now.

        Args:
            key: What is made, from which file (its digest), with which arguments.
            make: Makes it; a `FileError` of it is kept and raised each time.
        """
        if key not in self._kept:
            try:
                self._kept[key] = make()
            except FileError as error:
                self._kept[key] = error
        if isinstance(self._kept[key], FileError):
            raise self._kept[key]
        made: Made = self._kept[key]
        return made

    def _find(self, name: str, suffixes: Collection[str]) -> Found:
        plain = _plain_name(name)
        suffix = PurePosixPath(plain).suffix.lower()
        expected = f"a file that ends in {', '.join(suffixes)}"
        if suffix not in suffixes:
            raise _wrong_kind(name, suffix, expected)
        path = self._inside(name, plain, suffixes)
        if not path.is_file():
            found = f"{shown(name)} is a folder or a device, not a file"
            raise FileError(found, expected, "type the name of the file itself")
        try:
            size = path.stat().st_size
            _refuse_size(name, size, LARGEST_BYTES[suffix])
            with path.open("rb") as stream:
                digest = hashlib.file_digest(stream, "sha256").hexdigest()
        except OSError as error:
            found = f"{shown(name)} cannot be opened ({error.strerror})"
            raise FileError(found, "a file that may be read", "look who may read it") from error
        return Found(path, plain, suffix, digest, size)

    def _inside(self, name: str, plain: str, suffixes: Collection[str]) -> Path:
        """Return where a file is, once all links are followed; it must be in the folder."""
        try:
            path = (self.folder / plain).resolve(strict=True)
        except (OSError, RuntimeError, ValueError) as error:
            found = f"there is no file {shown(name)} in the folder of the job"
            raise FileError(found, _BESIDE, self._near(plain, suffixes)) from error
        if not path.is_relative_to(self.folder):
            found = f"{shown(name)} is a link out of the folder of the job"
            raise FileError(found, _BESIDE, "put the file itself there")
        return path

    def _near(self, plain: str, suffixes: Collection[str]) -> str:
        """Return advice that names the files that may have been meant, in folders beside it too."""
        try:
            listed = [path for path in islice(self.folder.rglob("*"), _MOST_LISTED)
                      if path.suffix.lower() in suffixes and self._is_own(path)]  # fmt: skip
        except OSError:
            listed = []
        names = [path.relative_to(self.folder).as_posix() for path in sorted(listed)]
        by_whole = {name.lower(): name for name in names}
        by_last = {PurePosixPath(name).name.lower(): name for name in reversed(names)}
        meant = plain.lower()
        near = [by_whole[one] for one in difflib.get_close_matches(meant, by_whole, _NEIGHBOURS)]
        last = difflib.get_close_matches(PurePosixPath(meant).name, by_last, _NEIGHBOURS)
        near = [*dict.fromkeys((*near, *(by_last[one] for one in last)))] or names
        if not near:
            return f"put it there; no file there ends in {', '.join(suffixes)} yet"
        return f"type one of: {', '.join(map(shown, near[:_NEIGHBOURS]))}"

    def _is_own(self, path: Path) -> bool:
        """Return whether this is a file, and no link out of the folder."""
        return path.is_file() and path.resolve().is_relative_to(self.folder)


_BESIDE = "a file that lies beside the workbook, or in a folder beside it"


def shown(name: str) -> str:
    """Return a name in quotes as it can be printed: cut short, without control characters."""
    text = "".join(letter if letter.isprintable() else "?" for letter in name)
    return f'"{text}"' if len(text) <= _LONGEST_NAME else f'"{text[:_LONGEST_NAME]}..."'


def _plain_name(name: str) -> str:
    """Return a name with forward slashes, once it is known to lead down only."""
    if not name.strip():
        found = "no file is named"
        raise FileError(found, _BESIDE, "type its name, such as bird.stl")
    windows = PureWindowsPath(name)
    posix = PurePosixPath(windows.as_posix())
    if windows.drive or windows.root or ".." in posix.parts:
        found = f"{shown(name)} leads out of the folder of the job"
        raise FileError(found, _BESIDE, "put the file beside the workbook and type its name alone")
    return str(posix)


def _wrong_kind(name: str, suffix: str, expected: str) -> FileError:
    if not suffix:
        return FileError(f"{shown(name)} does not say what kind of file it is", expected,
                         "type the name with its ending")  # fmt: skip
    use = "is of no use here" if suffix in LARGEST_BYTES else "is not a kind of file that is read"
    return FileError(f"{shown(name)} {use}", expected, "save it as one of these, or take its shape")


def _refuse_size(name: str, size: int, most: int) -> None:
    if not size:
        found = f"{shown(name)} is empty"
        raise FileError(found, "a file with something in it", "save it again")
    if size > most:
        found = f"{shown(name)} holds {size / 1e6:.0f} MB"
        expected = f"{most / 1e6:.0f} MB at most"
        raise FileError(found, expected, "save it with fewer triangles or points")
