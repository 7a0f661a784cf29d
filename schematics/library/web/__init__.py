"""The same functions in a browser: pages for makers, and for the designer her design as she edits it.

Nothing is kept between two requests and nothing is written. What is worked out is handed to a bounded number
of processes; whatever comes in is bounded too.
"""
