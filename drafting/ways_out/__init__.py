"""Changes that help, each drafted before it is offered."""
