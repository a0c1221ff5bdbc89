"""Pictures of steps: what is taken, what is refused, and how each is measured."""

from __future__ import annotations

import hashlib
import struct
import zlib
from pathlib import Path

import pytest

from dossier.findings import Rejected
from dossier.read.picture import LARGEST_FILE, LARGEST_SIDE, read_picture


def png(width: int, height: int, more: bytes = b"") -> bytes:
    """A whole grey PNG, after PNG (W3C), 5.3: length, type, content, CRC of each chunk."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress(b"".join(b"\0" + b"\x80" * width for _ in range(height)))
    return b"\x89PNG\r\n\x1a\n" + more + _chunk(b"IHDR", head) + _chunk(b"IDAT", rows) + _chunk(b"IEND", b"")


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


def jpeg(width: int, height: int, marker: int = 0xC0) -> bytes:
    """The segments of a JPEG up to its frame header, then the end (ITU-T T.81, B.2.2):
    measured, never shown."""
    application = b"\xff\xe0" + struct.pack(">H", 16) + b"JFIF\0" + b"\x01\x01\0\0\x01\0\x01\0\0"
    frame = bytes((0xFF, marker)) + struct.pack(">HBHHB", 11, 8, height, width, 1) + b"\x01\x11\0"
    return b"\xff\xd8" + application + b"\xff" + frame + b"\xff\xd9"


def code_of(folder: Path, name: str) -> str:
    with pytest.raises(Rejected) as caught:
        read_picture(folder, name, None)
    return caught.value.findings[0].code


def test_a_png_is_measured_and_fingerprinted(tmp_path: Path) -> None:
    (tmp_path / "pin.png").write_bytes(png(5, 3))
    found = read_picture(tmp_path, "pin.png", None)
    assert (found.kind, found.width, found.height) == ("PNG", 5, 3)
    assert found.sha256 == hashlib.sha256(png(5, 3)).hexdigest()


@pytest.mark.parametrize("marker", [0xC0, 0xC1, 0xC2], ids=["baseline", "extended", "progressive"])
@pytest.mark.parametrize("name", ["pin.jpg", "pin.JPEG"])
def test_a_jpeg_of_each_frame_is_measured(name: str, marker: int, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(jpeg(640, 480, marker))
    found = read_picture(tmp_path, name, None)
    assert (found.kind, found.width, found.height) == ("JPEG", 640, 480)


@pytest.mark.parametrize("content", [
    b"", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"GIF89a" + b"\0" * 60,
    b"RIFF\0\0\0\0WEBPVP8 " + b"\0" * 60,
    png(5, 3)[:-12], png(5, 3) + b"<script>", png(0, 3), jpeg(0, 3), jpeg(5, 3)[:-2],
    jpeg(5, 3)[:30] + b"\xff\xd9",
], ids=["nothing", "svg", "gif", "webp", "png without its end", "png with more behind", "png without width",
        "jpeg without width", "jpeg without its end", "jpeg without its frame"])  # fmt: skip
def test_what_is_no_whole_png_or_jpeg_is_refused(content: bytes, tmp_path: Path) -> None:
    (tmp_path / "pin.png").write_bytes(content)
    assert code_of(tmp_path, "pin.png") == "R018"


def test_a_name_that_says_another_kind_is_refused(tmp_path: Path) -> None:
    (tmp_path / "pin.png").write_bytes(jpeg(5, 3))
    assert code_of(tmp_path, "pin.png") == "R018"


def test_a_picture_that_is_not_there_names_its_neighbours(tmp_path: Path) -> None:
    (tmp_path / "pin.png").write_bytes(png(5, 3))
    with pytest.raises(Rejected) as caught:
        read_picture(tmp_path, "pim.png", None)
    assert "pin.png" in caught.value.findings[0].help


def test_a_link_that_leads_out_of_the_project_is_refused(tmp_path: Path) -> None:
    (tmp_path / "outside.png").write_bytes(png(5, 3))
    (tmp_path / "project").mkdir()
    (tmp_path / "project" / "pin.png").symlink_to(tmp_path / "outside.png")
    assert code_of(tmp_path / "project", "pin.png") == "R017"


def test_the_largest_side_is_taken_and_one_pixel_more_is_not(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(png(LARGEST_SIDE, 1))
    (tmp_path / "b.png").write_bytes(png(LARGEST_SIDE + 1, 1))
    assert read_picture(tmp_path, "a.png", None).width == LARGEST_SIDE
    assert code_of(tmp_path, "b.png") == "R019"


def test_a_file_too_heavy_for_a_telephone_is_refused(tmp_path: Path) -> None:
    whole = png(5, 3)
    (tmp_path / "pin.png").write_bytes(whole[:-12] + _chunk(b"tEXt", b"x" * LARGEST_FILE) + whole[-12:])
    assert code_of(tmp_path, "pin.png") == "R019"
