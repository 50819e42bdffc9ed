"""What every face says: results as sentences, tables, JSON documents and pages; no stream, no terminal, no decision."""
