from __future__ import annotations

import io
import struct
import zlib

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image, ImageCms

from jobs.kept_files import FileDamaged, path_of
from jobs.surveys.models import Finding, Photograph
from jobs.surveys.photographs.kept import PhotographRefused, keep_photograph, read_photograph
from jobs.surveys.services import open_survey

GPS_TAG, ORIENTATION_TAG, MAKER_TAG = 0x8825, 0x0112, 0x010F


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path):
    settings.PHOTOGRAPHS_DIR = tmp_path / "photographs"


def picture(kind: str = "JPEG", size: tuple[int, int] = (60, 40), **options) -> bytes:
    image = Image.new("RGB", size, "saddlebrown")
    image.paste("white", (0, 0, size[0] // 2, size[1] // 2))
    written = io.BytesIO()
    image.save(written, kind, **options)
    return written.getvalue()


def with_place() -> bytes:
    exif = Image.Exif()
    exif[MAKER_TAG] = "Invented Telephones"
    exif[ORIENTATION_TAG] = 6
    exif.get_ifd(GPS_TAG)[1] = "N"
    exif.get_ifd(GPS_TAG)[2] = (51.0, 30.0, 12.5)
    return picture(exif=exif)


def test_a_photograph_is_rebuilt_without_place_or_maker_and_stands_upright():
    sent = with_place()
    assert b"Invented Telephones" in sent
    kept = keep_photograph(sent, name="hatch.jpg")
    content = read_photograph(kept.sha256)
    assert b"Invented Telephones" not in content
    assert b"Exif" not in content
    with Image.open(io.BytesIO(content)) as image:
        assert not image.getexif()
        assert image.format == "JPEG"
        assert image.size == (kept.width, kept.height) == (40, 60)
        assert min(image.getpixel((35, 5))) > 240  # the white corner, turned with the picture


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_usual_formats_are_taken_and_shrunk(kind):
    kept = keep_photograph(picture(kind, (4800, 1200)), name="wide")
    assert (kept.width, kept.height) == (2400, 600)


def test_colours_of_another_profile_become_srgb_without_one():
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    kept = keep_photograph(picture(icc_profile=profile), name="hatch.jpg")
    with Image.open(io.BytesIO(read_photograph(kept.sha256))) as image:
        assert "icc_profile" not in image.info


def test_a_transparent_picture_is_laid_on_white():
    written = io.BytesIO()
    Image.new("RGBA", (10, 10), (0, 0, 0, 0)).save(written, "PNG")
    kept = keep_photograph(written.getvalue(), name="sketch.png")
    with Image.open(io.BytesIO(read_photograph(kept.sha256))) as image:
        assert image.getpixel((5, 5)) == (255, 255, 255)


def bomb(width: int, height: int) -> bytes:
    """Make a small PNG whose header claims a great many pixels."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    packed = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


@pytest.mark.filterwarnings("ignore::PIL.Image.DecompressionBombWarning")
@pytest.mark.parametrize("size", [(8000, 8000), (12000, 12000), (60000, 60000)])
def test_a_picture_of_too_many_pixels_is_refused_before_it_is_unpacked(size):
    with pytest.raises(PhotographRefused, match=r"bomb\.png has more than 60 million pixels"):
        keep_photograph(bomb(*size), name="bomb.png")


@pytest.mark.parametrize(
    "content",
    [b"", b"not a picture", b"<svg xmlns='http://www.w3.org/2000/svg'/>", picture()[:200], picture("GIF")],
)
def test_a_file_that_is_no_photograph_is_refused_by_its_name(content):
    with pytest.raises(PhotographRefused, match=r"^notes\.txt cannot be read as a photograph"):
        keep_photograph(content, name="notes.txt")


def test_a_photograph_changed_on_disk_is_not_shown(settings):
    kept = keep_photograph(picture(), name="hatch.jpg")
    path_of(settings.PHOTOGRAPHS_DIR, kept.sha256, suffix=".jpg").write_bytes(b"something else")
    with pytest.raises(FileDamaged, match="was changed"):
        read_photograph(kept.sha256)


def upload(client, survey, *files, **fields):
    address = reverse("survey_section", args=[survey.number, "photographs"])
    return client.post(address, {"pictures": list(files), "act": "save", **fields})


def jpeg(name: str = "hatch.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, picture(), "image/jpeg")


def test_several_photographs_are_tied_to_a_finding_with_a_note(survey, surveyor, logged_in):
    finding = Finding.objects.create(survey=survey, hazard="wiring", seen="yes", severity="stop")
    other = SimpleUploadedFile("b.png", picture("PNG", (20, 20)), "image/png")
    answer = upload(logged_in(surveyor), survey, jpeg(), other, shows="Bare ends", finding=finding.pk)
    assert answer.status_code == 302
    assert {photo.shows for photo in finding.photographs.all()} == {"Bare ends"}
    assert finding.photographs.count() == 2


def test_the_same_photograph_sent_twice_is_kept_once(survey, surveyor, logged_in):
    client = logged_in(surveyor)
    upload(client, survey, jpeg())
    upload(client, survey, jpeg())
    assert survey.photographs.count() == 1


def test_a_bad_file_among_good_ones_is_named_beside_the_box(survey, surveyor, logged_in):
    answer = upload(logged_in(surveyor), survey, jpeg(), SimpleUploadedFile("plan.pdf", b"%PDF-1.7"))
    assert answer.status_code == 422
    assert "plan.pdf cannot be read as a photograph" in answer.content.decode()


def test_a_finding_of_another_survey_cannot_be_chosen(survey, surveyor, building, logged_in):
    other = open_survey(building, by=surveyor, visited_on=survey.visited_on)
    foreign = Finding.objects.create(survey=other, hazard="wiring", seen="yes", severity="stop")
    answer = upload(logged_in(surveyor), survey, jpeg(), finding=foreign.pk)
    assert answer.status_code == 422


def test_a_photograph_is_seen_only_by_people_of_the_firm_and_never_stored_on_the_way(
    survey, surveyor, crew, client, logged_in
):
    upload(logged_in(surveyor), survey, jpeg())
    address = reverse("photograph", args=[Photograph.objects.get().pk])
    assert client.get(address).status_code == 302
    for person in (surveyor, crew):
        answer = logged_in(person).get(address)
        assert answer.status_code == 200
        assert answer["Content-Type"] == "image/jpeg"
        assert answer["Cache-Control"] == "private, no-store"
    crew.groups.clear()
    assert logged_in(crew).get(address).status_code == 403
