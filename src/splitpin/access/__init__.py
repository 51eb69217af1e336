"""What must be open before what, and the least set of openings for a set of targets."""
