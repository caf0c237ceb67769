"""Brightroot: training and competency for pipe back purging."""

import os

__version__ = "0.1.0"

# The matrices here are small: a second thread of the linear algebra library costs more than it gives, and on
# a busy machine it waits for its turn far longer than it works. It has to be said before numpy is loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
