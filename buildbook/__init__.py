"""buildbook: a furniture maker's job folder becomes a client's handover and a build log."""

__version__ = "0.1.0"
