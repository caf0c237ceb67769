"""The demo: an invented training centre and employer with two months of history, all of it acted out.

Faker's names stay in here. What the apprentices score comes from answers that carry typical misconceptions
and run through the real services; nothing in the history is made up as a score.
"""
