"""Mitred: worked from the neck down with lines of increases."""
