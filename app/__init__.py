"""The screens of Foldmark. No trade lives here: every rule of drafting is asked of the package `drafting`."""
