"""The firm's logo: built anew from its pixels, kept under its digest, so that an issued quote keeps it."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from PIL import Image, ImageOps

from jobs.kept_files import keep_file, read_file

FORMATS = ("PNG", "JPEG", "WEBP")
MOST_BYTES = 5 * 1024 * 1024
MOST_PIXELS = 40_000_000
KEPT_PX, PRINTED_PX = (900, 360), (226, 90)
"""At most so large is a logo kept, and printed: 60 mm by 24 mm on paper, so 380 dots to the inch."""

SUFFIX = ".png"
DIGEST = re.compile(r"[0-9a-f]{64}")
WANTED = "PNG, JPEG or WEBP is taken, at most 5 MB. A drawing (SVG) must be saved as PNG first."


class LogoRefused(Exception):
    """A file that is no picture we print; the message says what is wanted."""


@dataclass(frozen=True, slots=True)
class Logo:
    """A logo as it is printed: a PNG of its own pixels."""

    png: bytes
    width: int
    height: int


def read_as_logo(content: bytes) -> Logo:
    """Build a logo anew, no larger than it is printed and with nothing beside its pixels."""
    if len(content) > MOST_BYTES:
        raise LogoRefused(f"The file is too large. {WANTED}")
    try:
        picture = _rebuilt(content)
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError, Image.DecompressionBombError) as broken:
        raise LogoRefused(f"The file cannot be read as a picture. {WANTED}") from broken
    written = io.BytesIO()
    picture.save(written, "PNG", optimize=True)
    return Logo(written.getvalue(), *picture.size)


def printed_size_px(width: int, height: int) -> tuple[int, int]:
    """Return how large a logo stands on a paper; a small one is printed larger, a large one smaller."""
    if not width or not height:
        return 0, 0
    scale = min(PRINTED_PX[0] / width, PRINTED_PX[1] / height)
    return round(width * scale), round(height * scale)


def keep_logo(logo: Logo) -> str:
    """Keep a logo and return its digest; the same picture is kept once."""
    return keep_file(_folder(), logo.png, suffix=SUFFIX)


def read_logo(sha256: str) -> bytes:
    """Return the PNG of a kept logo; raises FileDamaged."""
    return read_file(_folder(), sha256, suffix=SUFFIX)


def _folder() -> Path:
    return Path(settings.LOGOS_DIR)


def _rebuilt(content: bytes) -> Image.Image:
    with Image.open(io.BytesIO(content), formats=FORMATS) as image:
        if image.width * image.height > MOST_PIXELS:  # known from the header, before any pixel is unpacked
            raise LogoRefused(f"The picture has more than {MOST_PIXELS // 1_000_000} million pixels.")
        upright = ImageOps.exif_transpose(image)
        plain = upright.convert("RGBA" if upright.has_transparency_data else "RGB")
    plain.thumbnail(KEPT_PX, Image.Resampling.LANCZOS)
    bare = Image.new(plain.mode, plain.size)
    bare.paste(plain)
    return bare
