"""Between the wire contract and the solver's own words: the only modules that know both worlds."""
