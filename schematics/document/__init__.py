"""What is printed: documents of headings, words and tables, their writers, and the letters of the sheets."""
