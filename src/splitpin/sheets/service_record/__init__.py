"""The service record: what a visit did."""
