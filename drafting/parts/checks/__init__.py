"""Checks that several garments bring, one a file: each is as those in drafting.checks, and reads their facts."""
