"""Simulated people: apprentices of a known ability, and people who answer without looking.

The first show whether a family's difficulty is felt, the second whether a module can be passed without
knowing anything. How often what is overlooked or believed is our judgement, not measured on people: the
figures compare scenarios with each other and foretell nobody's marks.
"""
