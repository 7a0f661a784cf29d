"""The program's own exceptions; every one a user can meet is a `SchematicsError`."""


class SchematicsError(Exception):
    """Root of all errors the program raises on purpose; its text is meant for the user."""


class UsageError(SchematicsError):
    """The call itself is wrong: an unknown size, a missing file, an option out of range."""


class MissingLibraryError(SchematicsError):
    """A library the machine must provide is absent, or of no use; the text says what to do about it."""
