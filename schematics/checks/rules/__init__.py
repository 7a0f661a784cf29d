"""Every verdict that depends on the wearer, as data: worked out here, over many wearers, or in a page."""
