"""What a designer asks of results: the workings by hand, how sure the figures are, the yarn."""
