"""Two lists, one before the other: what changed in the build, in its numbers, and in what is found."""
