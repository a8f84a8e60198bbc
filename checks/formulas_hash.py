"""The identity of the formulas, made by checks.generate: see checks/identity.py."""

FORMULAS_HASH = "46c392df0fd6c7bf9f4adf3eea614c34a21138f91e2a0a0c5460356e26624a4f"
