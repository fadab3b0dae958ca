"""Work that goes on after its request was answered, and can be followed from any worker."""
