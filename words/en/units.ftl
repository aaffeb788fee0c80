# The symbols of units stand in the catalog, and here where it has no use for one.

unit-ft3 = ft³
