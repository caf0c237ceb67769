"""Pure physics of back purging: SI floats in, SI floats out.

The standard library and numpy, with scipy and fluids where a function needs them (imported inside it, so
that importing the core stays quick). No clock, no random numbers, no input or output beyond the tables in
`data/`. Every public function carries its equation, units, range and reference in its docstring.
"""
