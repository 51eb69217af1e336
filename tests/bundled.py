"""The bundled catalogue and procedures, read once for all tests of a process; records are frozen, so they share it."""

from splitpin.reading.library import read_library

LIBRARY, NOTICES = read_library()
