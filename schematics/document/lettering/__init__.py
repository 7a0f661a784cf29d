"""The lettering of sheets and charts: what its font can show and how wide it comes out."""
