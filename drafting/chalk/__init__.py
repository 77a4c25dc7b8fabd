"""From pieces to marks: the chalk plan, its words, its proof lengths, and what the steps of a tape do to it."""
