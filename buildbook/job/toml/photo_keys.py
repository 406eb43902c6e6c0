"""What photos.toml may hold, as data: what a maker chooses of the pictures, on the contact sheet or by hand."""

from __future__ import annotations

from buildbook.job.toml.key import Key, Leaves, Table

_EFFECT = Leaves("effect", "no")

CHOSEN = Table(
    "",
    "What you chose of the pictures; the contact sheet of the bench writes it, and you may. It counts beside job.toml"
    " and the notes.",
    (
        Key("lead", "text", '"photos/front.jpg"', "The picture at the head of the client's page.", _EFFECT),
        Key(
            "instead_of",
            "text",
            '"photos/old.jpg"',
            "The lead that job.toml named when this one was chosen: if it names another by now, that one counts.",
            _EFFECT,
        ),
        Key("photo", "tables", "[[photo]]", "What you say of a picture, one table each.", _EFFECT),
    ),
)

PHOTO = Table(
    "[[photo]]",
    "What you say of a picture. What is not said stays as job.toml, the notes and the camera have it.",
    (
        Key(
            "file",
            "text",
            '"photos/IMG_4498.jpg"',
            "Which picture, from the job folder.",
            _EFFECT,
            needed=True,
        ),
        Key(
            "client",
            "flag",
            "true",
            "Whether the client may see it; false keeps it in, whatever else names it.",
            _EFFECT,
        ),
        Key(
            "caption",
            "text",
            '"The back, opened like a book"',
            "Words under it; they leave with a picture that the client sees, and with no other.",
            Leaves("yes", "no"),
        ),
        Key(
            "turn",
            "angle",
            "90",
            "Degrees clockwise, on top of what the camera said: 0, 90, 180 or 270.",
            _EFFECT,
            within="turn of a photo",
        ),
        Key("aside", "flag", "false", "Put aside: shown nowhere, whatever else names it.", _EFFECT),
        Key(
            "day",
            "date",
            "2026-10-20",
            "The day that it was taken, before what the camera and the name of the file say.",
            Leaves("yes", "no"),
            within="day of a photo",
        ),
    ),
)

PHOTO_TABLES = (CHOSEN, PHOTO)
