"""A new spec from a swatch: questions, answers, and the commented file they make."""
