"""The solvers behind the seam."""
