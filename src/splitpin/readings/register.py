"""Every calculated reading by name, in the order in which they are listed."""

from splitpin.readings import combustion, gas, people, refrigerant, vessel, water
from splitpin.readings.reading import Reading

READINGS: dict[str, Reading] = {
    reading.name: reading for room in (gas, combustion, vessel, water, people, refrigerant) for reading in room.READINGS
}
