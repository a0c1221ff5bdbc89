"""Lists that were ticked on a device, on their way into the record: read, checked, kept, never edited."""
