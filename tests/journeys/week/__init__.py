"""A week of the shop through its pages: its days, what the reports tell at its end, and how a page is read."""
