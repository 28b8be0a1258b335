"""Photographs taken in, made small and anonymous, and kept under their digest outside every served folder.

A telephone writes the place and time into a photograph; the customer's house must not travel with it, so
each picture is built anew from its pixels alone.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

import pi_heif
from django.conf import settings
from PIL import Image, ImageCms, ImageOps

from jobs.kept_files import keep_file, read_file

FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
MOST_BYTES = 30 * 1024 * 1024
MOST_PIXELS = 60_000_000
LONGEST_SIDE_PX = 2400
QUALITY = 85

pi_heif.register_heif_opener()


class PhotographRefused(Exception):
    """A file that is no photograph we take; the message names the file."""


@dataclass(frozen=True, slots=True)
class KeptPhotograph:
    """A photograph on disk."""

    sha256: str
    width: int
    height: int


def keep_photograph(content: bytes, *, name: str) -> KeptPhotograph:
    """Build a photograph anew, keep it, and return its record; raises PhotographRefused."""
    if len(content) > MOST_BYTES:
        raise PhotographRefused(f"{name} is larger than {MOST_BYTES // 1024 // 1024} MB.")
    try:
        picture = _rebuilt(content, name)
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError) as broken:
        raise PhotographRefused(
            f"{name} cannot be read as a photograph. JPEG, PNG, WEBP and HEIC are taken."
        ) from broken
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=QUALITY, optimize=True)
    digest = keep_file(_folder(), written.getvalue(), suffix=".jpg")
    return KeptPhotograph(digest, *picture.size)


def read_photograph(sha256: str) -> bytes:
    """Return the JPEG of a kept photograph; raises FileDamaged."""
    return read_file(_folder(), sha256, suffix=".jpg")


def _folder() -> Path:
    return Path(settings.PHOTOGRAPHS_DIR)


def _rebuilt(content: bytes, name: str) -> Image.Image:
    """Return the picture upright, at most 2400 px long, in sRGB and with nothing beside its pixels."""
    try:
        image = Image.open(io.BytesIO(content), formats=FORMATS)
    except Image.DecompressionBombError as bomb:
        raise PhotographRefused(_too_many_pixels(name)) from bomb
    with image:
        if image.width * image.height > MOST_PIXELS:  # known from the header, before any pixel is unpacked
            raise PhotographRefused(_too_many_pixels(name))
        image.draft("RGB", (LONGEST_SIDE_PX, LONGEST_SIDE_PX))
        upright = ImageOps.exif_transpose(image)
        upright.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX))
        coloured = _in_srgb(upright)
    bare = Image.new("RGB", coloured.size, "white")
    bare.paste(coloured, mask=coloured.getchannel("A") if coloured.mode == "RGBA" else None)
    return bare


def _in_srgb(image: Image.Image) -> Image.Image:
    profile = image.info.get("icc_profile")
    plain = image.convert("RGBA" if image.has_transparency_data else "RGB")
    if not profile or image.mode not in {"RGB", "RGBA"}:
        return plain
    try:
        given = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        converted = ImageCms.profileToProfile(plain, given, ImageCms.createProfile("sRGB"))
    except (ImageCms.PyCMSError, OSError):
        return plain  # a broken profile costs a shade of colour, not the photograph
    return converted or plain


def _too_many_pixels(name: str) -> str:
    return f"{name} has more than {MOST_PIXELS // 1_000_000} million pixels."
