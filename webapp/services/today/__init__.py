"""What needs a hand now: one rule a function, judged by the shop's thresholds, each cheap whatever the shop's size."""
