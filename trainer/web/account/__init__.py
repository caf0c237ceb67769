"""Signing in and out, and what is one's own."""
