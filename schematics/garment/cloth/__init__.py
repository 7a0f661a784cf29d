"""How a garment hangs on a body: a small quasi-static cloth, worn with the arms down and level."""
