"""The whole job on a page of this machine: shows what tasks return, in the words of ``faces.telling``."""
