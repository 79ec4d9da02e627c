"""What readers get: one module a channel."""
