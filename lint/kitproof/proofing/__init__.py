"""Rules over facts: every rule on every subject it is about, gathered into findings."""
