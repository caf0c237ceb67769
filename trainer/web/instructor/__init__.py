"""Classes, modules, grading and awards."""
