"""`python -m interview` is `hosewright`."""

import sys

from interview.cli import main

sys.exit(main())
