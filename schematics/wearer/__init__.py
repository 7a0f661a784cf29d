"""Who wears it: charts and age tables with their sources."""
