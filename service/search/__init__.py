"""Finding a food: what people type, read with a table of kitchen words, looked up in a full-text index of the names."""
