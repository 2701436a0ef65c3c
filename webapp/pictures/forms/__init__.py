"""Growth forms: each function takes a pen and draws one animal on the ground line at y = 330."""
