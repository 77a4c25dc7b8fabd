"""What is written down of a result: draft.json, all its files, and the folder that holds them."""
