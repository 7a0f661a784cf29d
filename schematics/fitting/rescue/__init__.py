"""What mends a finished poncho that came out otherwise, or whom it fits as it is."""
