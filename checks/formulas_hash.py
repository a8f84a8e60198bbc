"""The identity of the formulas, made by checks.generate: see checks/identity.py."""

FORMULAS_HASH = "dd5dc879569712e49ffdc60d480a082bbc28ee5abcd9ec15e6f050544ee2014b"
