"""Every calculated reading by name, in the order in which they are listed."""

from splitpin.calculations import combustion, gas, lifting, people, refrigerant, vessel, water
from splitpin.calculations.reading import Reading

ROOMS = (gas, combustion, vessel, water, people, lifting, refrigerant)
READINGS: dict[str, Reading] = {reading.name: reading for room in ROOMS for reading in room.READINGS}
