"""The optimiser: a brief goes in, a verified outcome comes out; it knows nothing of HTTP."""
