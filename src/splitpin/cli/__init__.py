"""The commands: read arguments, call, print, set the exit code."""
