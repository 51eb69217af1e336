"""The step sheet, on paper and on the terminal."""
