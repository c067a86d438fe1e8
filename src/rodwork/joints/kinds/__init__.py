"""One file a family; the registry finds it here."""
