"""From TOML and CSV text to records and notices."""
