"""Layer 3: spreadsheets and archives of the keeper: reading and writing."""
