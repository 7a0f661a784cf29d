"""How the sizes of a design hang: the plane model beside cloth."""
