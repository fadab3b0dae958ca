"""From the SR28 release to the tables in `sr28/`. Run it with `python -m reference_data.build`."""
