"""The invented scenario behind ``--demo``."""

from webapp.demo.seed import SignIn, seed

__all__ = ["SignIn", "seed"]
