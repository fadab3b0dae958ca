"""Pictures of answers: each a drawing with an alternative text that carries its numbers."""
