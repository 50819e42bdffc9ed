"""Every file operation of every writing command fails once."""
