"""What is told of the catalogue: an assembly, a hardware designation, readings."""
