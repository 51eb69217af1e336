"""Documents of stock: pick list, load, spares, history."""
