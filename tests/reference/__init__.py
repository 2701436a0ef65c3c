"""Checks against the world outside: published tables, worked examples, independent libraries."""
