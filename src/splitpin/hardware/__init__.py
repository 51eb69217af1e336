"""From a standard designation, or a row of the catalogue, to the tool, the torque and whether the piece goes back."""

from splitpin.hardware.designation import Designation, Fault
from splitpin.hardware.fixing import Fixing, resolve
from splitpin.hardware.parser import parse
from splitpin.hardware.tools import Choice, choose
from splitpin.hardware.torque import NoTorque, Torque, given, tightening
from splitpin.hardware.unreadable import unreadable, unreadable_seals

__all__ = [
    "Choice",
    "Designation",
    "Fault",
    "Fixing",
    "NoTorque",
    "Torque",
    "choose",
    "given",
    "parse",
    "resolve",
    "tightening",
    "unreadable",
    "unreadable_seals",
]
