"""One hypothesis profile for every run: the same examples each time, so that a failure can be met again.

`pytest --hypothesis-profile wide` looks further, with new examples each time.
"""

from hypothesis import settings

# No deadline: no test here asserts how long something takes, and a busy machine is not a fault of the code.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None, max_examples=100)
settings.register_profile("wide", derandomize=False, deadline=None, max_examples=2000)
settings.load_profile("fixed")
