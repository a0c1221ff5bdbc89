"""What all tests share."""

from hypothesis import settings

# the same examples on every run, and no limit of time: neither the day nor the machine decides a test
settings.register_profile("dossier", deadline=None, derandomize=True, database=None)
settings.load_profile("dossier")
