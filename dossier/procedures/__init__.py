"""Is the procedure itself right? Every list is replayed step by step against a model of what is joined to
what."""
