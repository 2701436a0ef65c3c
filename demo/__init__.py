"""A shop to look at: `python3 demo` from a clean clone to a running shop. Everything in it is invented."""
