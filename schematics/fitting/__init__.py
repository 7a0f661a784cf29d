"""Will it fit this child, with this gauge: a wearer, or many, held against every size."""
