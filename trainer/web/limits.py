"""Coarse limits on pages that strangers can try things on, per address and process.

Failed sign-ins have a count of their own in the database, which holds across processes and machines.
"""

from flask_limiter import Limiter
from flask_limiter.util import get_remote_address

limiter = Limiter(get_remote_address, storage_uri="memory://", headers_enabled=False)

SIGN_IN = "60 per minute"  # a whole class signs in from one address
VERIFY = "120 per minute"
# A whole class drags at the bench from one address, each of them several times a second at most.
BENCH_LIVE = "6000 per minute"
BENCH_HELP = "240 per minute"  # each asks the core some thirty times
