"""`python -m buildbook`."""

import sys

from buildbook.cli import main

if __name__ == "__main__":
    sys.exit(main())
