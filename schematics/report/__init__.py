"""Tables and files made from a design's results."""
