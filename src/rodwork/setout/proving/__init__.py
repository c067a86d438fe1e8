"""The proof's own arithmetic: nothing here, nor in proof.py, is shared with what it proves."""
