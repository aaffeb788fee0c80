# The symbols of units stand in the catalog.
