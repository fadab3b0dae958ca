"""The wire contract as pydantic models: what comes in, what goes out. They know nothing of `solver`."""
