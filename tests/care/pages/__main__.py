"""Writes the texts of all pages anew: `python -m tests.care.pages`. Read what git shows before it is kept."""

from tests.care.pages import golden, jobs, page_text


def main() -> None:
    for name in jobs():
        golden(name).parent.mkdir(exist_ok=True)
        golden(name).write_text(page_text(name), encoding="utf-8")
        print(golden(name).name)


if __name__ == "__main__":
    main()
