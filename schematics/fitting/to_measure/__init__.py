"""A design made to measure: for one person, at a maker's gauge, with the counts that she wants changed."""
