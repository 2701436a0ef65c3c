"""Tags: codes, QR symbols, label pages, read-back of what was printed, and reading tags in photos."""
