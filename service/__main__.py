"""`python -m service`: the same as `larderline`."""

import sys

from service.cli import main

sys.exit(main())
