"""Rodwork: one description of a carcass job, and everything that is made from it."""

__version__ = "0.1.0"
