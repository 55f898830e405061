"""What stops a workshop from starting. The text of each is a sentence that says what to do."""


class SetUpError(Exception):
    """The person at the computer has to put something right before the workshop can start."""


class AuthorityError(SetUpError):
    """The workshop's certificates are missing, damaged, out of date or for another name."""


class OriginError(SetUpError):
    """The workshop's address is unusable, or is not the one the phones know."""


class PortError(SetUpError):
    """A port that the phones know cannot be opened."""
