"""Records visits until it is stopped, and says each one once it is committed: `python writer.py STORE NAME COUNT`."""

import sys
from pathlib import Path

from tests.history.made import visit

from splitpin.history import store

with store(Path(sys.argv[1]), create=True) as opened:
    for number in range(int(sys.argv[3])):
        job = f"{sys.argv[2]}-{number}"
        opened.add(visit(job))
        print(job, flush=True)
