"""`python -m service`: the same as `larderline`."""

import sys

from service.cli import main

if __name__ == "__main__":  # a worker imports this module under another name
    sys.exit(main())
