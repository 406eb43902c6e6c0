"""What can be read off a PDF: boxes, words, sizes of type, places of ink, tags. Lengths in millimetres, type in points."""

import ctypes
import io
import random
import re

import pypdf
import pypdfium2
from PIL import Image, ImageDraw
from pypdfium2 import raw

MM_PT = 72 / 25.4


def reader(pdf):
    return pypdf.PdfReader(io.BytesIO(pdf))


def size_mm(box):
    return round(float(box.width) / MM_PT, 2), round(float(box.height) / MM_PT, 2)


def words(pdf, page=None):
    """The text in reading order, as one line, without the places where long words may break."""
    pages = reader(pdf).pages if page is None else [reader(pdf).pages[page]]
    text = "\n".join(p.extract_text() for p in pages).replace("\u200b", "").replace("\u00ad", "")
    return re.sub(r"\s+", " ", text)


def characters(pdf):
    """Page, sign, size of type and box (left, bottom, right, top in points) of every sign that leaves ink."""
    document = pypdfium2.PdfDocument(pdf)
    for number, page in enumerate(document):
        text = page.get_textpage()
        for index in range(text.count_chars()):
            sign = chr(raw.FPDFText_GetUnicode(text, index))
            if sign.strip() and not raw.FPDFText_IsGenerated(text, index):
                yield number, sign, raw.FPDFText_GetFontSize(text, index), text.get_charbox(index)


def ink(pdf, page):
    """The boxes of everything on a page but pictures, in points."""
    return [
        shape.get_bounds()
        for shape in pypdfium2.PdfDocument(pdf)[page].get_objects()
        if shape.type not in (raw.FPDF_PAGEOBJ_IMAGE, raw.FPDF_PAGEOBJ_FORM)
    ]


def code_modules(pdf, page):
    """The modules of the page's QR code, read off a picture of the page: rows of 0 and 1, no quiet zone."""
    sheet = pypdfium2.PdfDocument(pdf)[page].render(scale=12).to_pil().convert("L")
    corner = sheet.crop((sheet.width * 4 // 5, sheet.height * 3 // 4, sheet.width, sheet.height))
    dark = corner.point(lambda value: 255 if value < 128 else 0)
    left, top, right, bottom = _code_box(dark)
    code = corner.crop((left, top, right, bottom))
    finder = _run_of_dark(code)  # a finder pattern is seven modules wide
    count = round(code.width / (finder / 7))
    step = code.width / count
    return [
        [int(code.getpixel((int((x + 0.5) * step), int((y + 0.5) * step))) < 128) for x in range(count)]
        for y in range(count)
    ]


def _code_box(dark):
    """The square at the lower right: from its bottom row of ink upward as far as it is wide."""
    left, _, right, bottom = dark.crop((0, dark.height // 2, dark.width, dark.height)).getbbox()
    bottom += dark.height // 2
    return left, bottom - (right - left), right, bottom


def _run_of_dark(code):
    return next(x for x in range(code.width) if code.getpixel((x, 2)) >= 128)


def fonts(pdf):
    """Every font of every page, with its descriptor."""
    for page in reader(pdf).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            font = font.get_object()
            inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
            yield str(font["/BaseFont"]), inner["/FontDescriptor"].get_object()


def metadata(pdf):
    return reader(pdf).trailer["/Root"]["/Metadata"].get_object().get_data().decode()


def tags(pdf):
    """The structure: name and alternative text of each element, in reading order."""
    out = []

    def walk(node):
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            for child in node:
                walk(child)
        elif isinstance(node, dict):
            if "/S" in node:
                out.append((str(node["/S"]).lstrip("/"), str(node.get("/Alt", ""))))
            if "/K" in node:
                walk(node["/K"])

    walk(reader(pdf).trailer["/Root"]["/StructTreeRoot"])
    return out


def photo(width=1008, height=756, seed=1):
    """A JPEG as the shop's own copies are: pixels only."""
    shade = random.Random(seed).randrange(60, 120)
    picture = Image.new("RGB", (width, height), (214, 208, 198))
    ImageDraw.Draw(picture).rectangle(
        (width // 8, height // 3, width * 7 // 8, height * 3 // 4), fill=(176, 134, shade)
    )
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=80)
    return out.getvalue()


def lines(pdf, page):
    """Every stroked path of a page as points in millimetres from its upper left corner, as they stand on paper."""
    sheet = pypdfium2.PdfDocument(pdf)[page]
    height = sheet.get_height()
    found = []
    for shape in sheet.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        matrix = shape.get_matrix()
        points = []
        for number in range(raw.FPDFPath_CountSegments(shape.raw)):
            segment = raw.FPDFPath_GetPathSegment(shape.raw, number)
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            right, up = matrix.on_point(x.value, y.value)
            points.append((right / MM_PT, (height - up) / MM_PT))
        found.append(points)
    return found
