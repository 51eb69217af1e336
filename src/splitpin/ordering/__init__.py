"""The best order of operations for one worker under precedence, set-ups and waits. Knows no screws, only numbers."""
