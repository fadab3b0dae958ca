"""The service: the HTTP face and the command line of Larderline, over `solver`."""
