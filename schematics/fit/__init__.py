"""Will it fit this child: the rules of fit as data, and what is worked out from them."""
