"""From a standard designation, or a row of the catalogue, to the tool, the torque and whether the piece goes back."""
