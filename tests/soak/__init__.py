"""Random use of one collection by two processes and the page, with everything that goes wrong at a keeper's."""
