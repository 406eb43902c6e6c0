"""How much of anything is read: generous to any real shop, and an end to what was made to stop us.

Each limit is told as a problem where it is met; none cuts anything off silently. Sizes in bytes unless the name says
otherwise. The believable ranges of single numbers and dates stand with their keys, not here.
"""

from __future__ import annotations

TABLE_BYTES = 8_000_000
"""parts.csv or prices.csv: some 100,000 rows."""

WORKBOOK_BYTES = 25_000_000
"""parts.xlsx, prices.ods and the like, with the pictures in them."""

WORKBOOK_XML_BYTES = 60_000_000
"""What the tables and the styles in one unpack to."""

WORKBOOK_FILES = 5_000
"""Files in one; each picture is one."""

WORKBOOK_CELLS = 500_000
"""Cells, or different texts, of one sheet, those that are only coloured among them."""

WORKBOOK_ROWS = 1_048_576
"""Rows of one sheet: the programs have no more."""

NOTE_BYTES = 2_000_000
"""One file of notes: a long novel."""

TOML_BYTES = 1_000_000
"""job.toml or shop.toml."""

RECORD_BYTES = 8_000_000
"""estimate.json and its like, in a job folder."""

PICTURE_POINTS = 150_000_000
"""Points of one picture: the largest cameras have two thirds of that."""

PICTURE_BYTES = 1_000_000_000
"""One picture file: as many points with 16 bits a colour, not compressed."""

LEFT_BYTES = 64_000_000
"""A list or a record that a binding left in a book, read again by the next: a job of some million words."""

INDEX_BYTES = 250_000_000
"""The index of a book: some hundred thousand jobs."""

# -- a handover that `verify` is asked about: made by anyone

HANDOVER_BYTES = 500_000_000
"""All files of a handover together: some 500 pictures in every size."""

HANDED_FILE_BYTES = 200_000_000
"""One file of a handover; the booklet with 500 pictures has half of that."""

PAGE_BYTES = 16_000_000
"""The client's page without its pictures: a hundred times what is usual."""

SEAL_BYTES = 2_000_000
"""seal.json: some 15,000 lines."""

HANDOVER_FILES = 5_000
"""Files, folders and strangers in a handover."""

NAME_BYTES = 500
"""A name in an archive: what the disks in use take for one folder, and our longest name in it."""

ARCHIVE_LINE_BYTES = 2_000
"""What the directory of an archive says of one file, on average."""

UNPACKED_TIMES = 50
"""How many times larger than its archive a handover may be; text packs to a tenth, pictures and prints hardly."""
PASSAGE_LEVELS = 8
"""Lists and quotes within one another in a passage for the client: there is no width left on a page of A5 beyond."""

PASSAGE_EMPHASIS = 16
"""Emphasis and links within one another."""
WHOLE_POINTS = 60_000_000
"""Points of one picture of a kind that takes two or three times its own size to open: WebP, TIFF, HEIC, and a JPEG that
comes in layers. The largest telephones have less.
"""

WEBP_POINTS = 40_000_000
"""The same for WebP, whose decoder keeps two copies more."""

PICTURE_EDGE = 100_000
"""Points along an edge: the widest panoramas have half as many."""

PICTURE_MARKS = 10_000
"""Segments of a JPEG before its picture begins; cameras write a dozen."""

PICTURE_LAYERS = 100
"""Layers of a JPEG that sharpens as it comes, each a pass over the whole; cameras and programs write ten."""

POINTS_IN_FLIGHT = 150_000_000
"""Points, at four bytes each, that all pictures being opened at once may hold; one alone is always let in."""

PHOTOS = 10_000
"""Photos of one job: one a minute for a month at the bench."""

PART_ROWS = 4_000
"""Rows of parts.csv: the parts of a whole house."""

PRICE_ROWS = 20_000
"""Rows of prices.csv: a merchant's whole catalogue."""

CELLS_IN_ROW = 500
"""Cells of a row of a table."""

CELL_SIGNS = 10_000
"""Signs in a cell of a table: three pages of print."""

NOTE_LINES = 60_000
"""Lines of all notes of a job together, a novel of a thousand pages."""

NOTES_SIGNS = 4_000_000
"""Signs of all notes of a job together."""

NOTE_BRACKETS = 20_000
"""Opening brackets in all notes of a job together: each may begin a link or a picture."""

NOTE_CELLS = 50_000
"""Cells of all tables in the notes of a job, those left empty at the ends of rows among them."""

ENTRIES = 3_000
"""Days of a job's notes: ten years at the bench."""

CARDS = 200
"""Cards of one job, where each piece of a set has its own: the chairs of a hall."""

PASSAGES_SIGNS = 200_000
"""Signs of all passages for the client together: a book of 100 pages."""

PASSAGES_LINES = 10_000
"""Lines of all passages for the client together: each may be an item of a list, which takes most of the typesetter."""

EMPHASIS_DEPTH = 100
"""Emphasis and links inside one another in a passage for the client."""

WORD_SIGNS = 2_000
"""Signs without a blank between them in what is printed; the longest addresses on the web have fewer."""

TEXT_SIGNS = 20_000
"""Signs of one text of job.toml or shop.toml: six pages of print."""

LIST_ITEMS = 1_000
"""Items of one list of job.toml or shop.toml: coats, tags, boards."""

TOML_DEPTH = 20
"""Parts of a dotted key, and brackets inside brackets."""

TOML_VALUES = 20_000
TOML_FAULTS = 20  # lines that are told of a file that is no TOML
"""Keys and items of lists of a job.toml or shop.toml."""

COATS = 200
"""Coats of a finish."""

TABLES_OF_A_KIND = {"photo": 3_000, "finish": 100, "worked": 500, "payment": 50, "delivery": 200}
"""Tables of one name in a job.toml or shop.toml."""

ERRORS_TOLD = 500
"""Errors of one table or list of keys before the rest of it is left unread: more are one mistake made many times."""

CURLED = 2_000
"""Quotation marks of one paragraph that are made typographic; one with more keeps its marks as typed."""

SIGNS_ASKED = 3_000
"""Different signs beyond ASCII that the print fonts are asked for; the others are taken for lacking, and told."""

DRAWINGS = 200
"""Files in the folder drawings of one job."""

DRAWING_BYTES = 25_000_000
"""One SVG or PDF among them."""

VIDEOS = 1_000
"""Videos of one job; each is one line of its day."""

VIDEOS_OPENED = 200
"""Those of them that are opened; reading one takes a tenth of a second, another one its picture, once."""

VIDEOS_SLOW = 3
"""Videos that take longer or more than they may, until no other is opened: each costs as long as it may take."""

VIDEO_BYTES = 20_000_000_000
"""One video file: an hour and a half as the best telephones record it."""

VIDEO_POINTS = 40_000_000
"""Points of one picture of a video: 8K has 33 million."""

VIDEO_EDGE = 2_016
"""Points along the longer edge of the picture that is kept of a video: as the largest copy of a photo."""

VIDEO_CPU_S = 10
"""Seconds of the processor that reading one video may take: 4K with a black beginning takes one."""

VIDEO_WALL_S = 60
"""Seconds by the clock that are waited for one: a slow disk, a busy machine."""

VIDEO_MEMORY = 1_500_000_000
"""Bytes of memory, of those that a process has promised to it: 8K takes half."""

FULL_SIZE = 24
"""Lines of one job that are drawn in full size."""

FULL_SIZE_M = 2.5
"""The longest that is drawn in full size, in metres: ten sheets of A4 in a row."""
