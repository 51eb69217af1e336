"""The pocket sheet: the step sheet for a phone."""
