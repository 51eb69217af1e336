"""The chosen acts as numbered steps, with reasons and lists."""
