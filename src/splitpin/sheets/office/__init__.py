"""Documents of the office: diagnosis card, quote, times, maintainability, the pack of a job."""
