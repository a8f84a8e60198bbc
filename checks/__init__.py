"""What Firstwater computes: formulas, tables, procedures, and the engine that judges by them.

Pure calculation: the same entries always give the same verdicts. No web, no database, no
clock; the only files that are read are the package's own data. Nothing else of ours is
imported here.
"""
