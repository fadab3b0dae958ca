"""One module a resource; each builds its router from what it needs."""
