"""Layer 4: the jobs a keeper asks for; the only place where files, sources and judgement meet."""
